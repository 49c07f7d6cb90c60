"""What every request passes, and what every view asks of it."""
