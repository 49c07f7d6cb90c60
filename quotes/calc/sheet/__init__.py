"""The finished answer: its values, figures and sentences."""
