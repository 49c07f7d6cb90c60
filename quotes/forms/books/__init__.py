"""The forms of invoices, payments and the books."""
