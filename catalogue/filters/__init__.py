"""What the lists can be narrowed by."""
