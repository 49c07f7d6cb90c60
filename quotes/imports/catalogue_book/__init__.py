"""A workbook of the catalogue that comes back: read, checked cell by cell, and held against what is there."""
