"""Articles of builds and work sent out: wanted, ordered, here, put in the place of another."""
