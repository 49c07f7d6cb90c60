"""What the accounts are handed: a workbook and a flat file."""
