"""The engine on the bench: what came in, what was found, ordered, put together and handed over."""
