"""Every read of the ledger, under one roof for the pages, papers and exports that ask."""

from quotes.queries.books.chart import accounts_now, books_settings

__all__ = ["accounts_now", "books_settings"]
