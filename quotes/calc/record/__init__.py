"""What the whole record is held to: plain values in, faults out."""
