"""Keeps the record of changes. Nothing need be called: it listens to what is saved (see DEVELOPERS.md)."""
