"""What was changed in a workbook of the catalogue, held against the catalogue as it is now."""
