"""Finished values in, bytes out."""
