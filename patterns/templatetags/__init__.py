"""Filters and tags for templates of every app."""
