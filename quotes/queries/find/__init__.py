"""Anything found from one box: customers, engines, documents, parts."""
