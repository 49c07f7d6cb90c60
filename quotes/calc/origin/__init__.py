"""Where a number comes from: every figure of an option opened to its parts, down to the catalogue."""
