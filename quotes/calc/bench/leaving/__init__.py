"""The way out: the last look, running in, power before and after, and the release."""
