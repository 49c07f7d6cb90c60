"""Invented years: what they are made of."""
