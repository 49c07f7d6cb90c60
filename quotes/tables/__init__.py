"""The tables of the lists of quotes and customers."""
