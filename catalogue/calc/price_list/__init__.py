"""Suppliers' price lists: what a row says, and what taking a list in would change."""
