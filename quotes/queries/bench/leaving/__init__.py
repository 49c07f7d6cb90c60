"""The way out of the workshop."""
