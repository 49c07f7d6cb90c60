"""The whole record looked through, and all that is held on one customer."""
