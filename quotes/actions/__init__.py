"""Writes: keyword-only, atomic, and the only callers of save()."""
