"""Copies of the whole workshop, taken while people work, and put back into an empty place."""
