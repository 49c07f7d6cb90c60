"""Tune from first principles: volumes, piston motion, gas loads, and what they leave of a life."""
