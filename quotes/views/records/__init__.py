"""Customers and their engines."""
