"""Fills an empty workshop with years of invented trading, to measure on."""
