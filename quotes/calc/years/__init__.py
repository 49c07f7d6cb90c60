"""Years of invented trading, to measure on: what there is, on which day, under which names."""
