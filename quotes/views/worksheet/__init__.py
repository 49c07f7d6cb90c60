"""The worksheet of a quote: its options line by line, where their figures come from, and issuing."""
