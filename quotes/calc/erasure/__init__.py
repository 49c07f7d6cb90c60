"""Erasing a customer: what must be kept and how long, and a person taken out of what was frozen."""
