"""A busy day of the workshop, pressed into ten minutes: how soon pages come, and what the workers hold."""
