"""Narrowing the lists of the bench."""
