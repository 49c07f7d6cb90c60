"""The sums of an invoice: its lines, its totals by the standard, and what of a yes it may ask for."""
