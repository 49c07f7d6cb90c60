"""What the books' lists can be narrowed by."""
