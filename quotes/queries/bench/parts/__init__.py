"""Articles of builds and work sent out, and what is still to come."""
