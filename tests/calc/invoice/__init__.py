"""The sums of invoices."""
