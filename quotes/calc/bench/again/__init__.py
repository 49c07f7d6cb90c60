"""A build worked out again: what changed, what it adds, and what the customer has said it may cost."""
