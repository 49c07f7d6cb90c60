"""What the strip-down has read and seen, as pages, papers and the quote's sums take it."""
