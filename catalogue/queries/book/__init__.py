"""The whole catalogue as sheets of a workbook: what stands where, taken from the shapes."""
