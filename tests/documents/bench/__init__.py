"""The engine on the bench."""
