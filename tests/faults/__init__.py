"""Processes killed while people work, and the record looked through afterwards: `make faults`."""
