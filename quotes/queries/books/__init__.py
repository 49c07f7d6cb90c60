"""Reads of invoices, payments and the books."""
