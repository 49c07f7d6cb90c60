"""What those lists can be narrowed by."""
