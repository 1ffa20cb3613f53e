"""Sheets: what they say, how they look, and their files."""
