"""A demo workshop, written through the same actions that people use."""
