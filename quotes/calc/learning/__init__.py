"""What the bench teaches of lives: evidence in, a proposal out. Nothing changes until the owner approves."""
