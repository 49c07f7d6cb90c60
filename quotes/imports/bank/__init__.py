"""A bank's statement as a CSV file of any making: bytes to lines, or every fault with its place."""
