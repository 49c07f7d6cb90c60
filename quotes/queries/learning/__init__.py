"""What the bench teaches of lives: evidence gathered, and what it would make of each life."""
