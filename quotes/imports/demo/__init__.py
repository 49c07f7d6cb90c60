"""Reading the files of a demo workshop."""
