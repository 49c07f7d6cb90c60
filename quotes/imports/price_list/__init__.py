"""Suppliers' price lists: a workbook or CSV file in, checked rows and refused ones out."""
