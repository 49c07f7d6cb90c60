"""Suppliers' price lists: handed in, looked at, taken in or undone; rates, terms, and one listed part."""
