"""What is asked of the sums, and what is wrong with it."""
