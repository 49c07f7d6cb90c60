"""What is done to an engine, and why."""
