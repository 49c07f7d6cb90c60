"""The cards on which entries of the catalogue are shown and changed."""
