"""The strip-down: what is read and seen, whose limits hold, what it costs, and what it tells the quote."""
