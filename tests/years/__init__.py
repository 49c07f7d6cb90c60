"""Years of invented trading, as they are written."""
