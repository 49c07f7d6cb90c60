"""Writes on invoices, payments and the books."""
