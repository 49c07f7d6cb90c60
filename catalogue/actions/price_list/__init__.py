"""Taking a supplier's price list in: handed in, checked, taken or left, and undone as a whole."""
