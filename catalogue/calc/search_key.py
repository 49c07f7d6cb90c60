"""The form of a text that searches compare: no accents, no punctuation, no case, single spaces."""

from __future__ import annotations

import unicodedata


def search_key(*texts: str) -> str:
    """The given texts as one searchable string.

    SQLite folds the case of ASCII letters only, so the database is given text that is folded already.
    """
    decomposed = unicodedata.normalize("NFKD", " ".join(texts)).casefold()
    kept = (char if char.isalnum() else " " for char in decomposed if not unicodedata.combining(char))
    return " ".join("".join(kept).split())
