"""What the owner does about lives: enters earlier evidence, approves a change, takes it back."""
