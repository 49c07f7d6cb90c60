"""Invoices, payments and the books: what is owed, what was paid, and the journal of both."""
