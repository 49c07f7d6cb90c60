"""A build worked out again, and what the customer is asked for it."""
