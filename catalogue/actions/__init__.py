"""Everything that writes to the catalogue."""
