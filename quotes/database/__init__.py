"""Django's own database backends, with what waits for the end of a transaction written before it is kept."""
