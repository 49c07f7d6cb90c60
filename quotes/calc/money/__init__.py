"""Prices, lines, discounts, taxes and sums."""
