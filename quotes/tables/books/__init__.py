"""The tables of the books' lists."""
