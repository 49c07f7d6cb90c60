"""The pages of invoices, payments and the books."""
