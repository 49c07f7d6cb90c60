"""Reading files of others: bytes to checked rows, then a report, then all or nothing."""
