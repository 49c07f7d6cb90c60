"""What the customer sees under a link of their own."""
