"""What changed prices of parts do to what was quoted and what is still to be bought."""
