"""What the files of a demo workshop hold."""
