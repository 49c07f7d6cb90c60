"""Coming in: the password, the one-time code, an invitation, the way back."""
