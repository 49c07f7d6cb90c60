"""The new-quote card, and the options as it compares them."""
