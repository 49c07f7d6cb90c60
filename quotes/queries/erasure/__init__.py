"""What of a customer goes when he is erased, and what has to stay."""
