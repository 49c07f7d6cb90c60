"""The tables of the lists."""
