"""The words of pages and sheets in other languages: what is to be translated, and the files it is kept in."""
