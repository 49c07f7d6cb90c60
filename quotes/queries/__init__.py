"""Reads: rows as plain values of the sums, or querysets with their joins."""
