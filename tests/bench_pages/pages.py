"""Which pages are timed, and what is promised of them."""

from __future__ import annotations

from dataclasses import dataclass

PROMISED_MS = 300
"""Home pages, list of quotes, worksheet and part search, at the median."""
MOST_TIMES = 1.5
"""No list takes so many times its own time at a hundredth of the size."""
PAGES: tuple[tuple[str, str, str], ...] = (
    *((f"home, {role}", role, "/") for role in ("owner", "desk", "builder", "books")),
    ("worksheet", "desk", "/quotes/{quote}/"),
    ("quotes", "desk", "/quotes/"),
    ("quotes, page 40", "desk", "/quotes/?page=40"),
    ("quotes by customer", "desk", "/quotes/?sort=customer"),
    ("quotes by sum", "desk", "/quotes/?sort=-gross_to"),
    ("quotes issued", "desk", "/quotes/?state=issued"),
    ("quotes lapsed", "desk", "/quotes/?state=lapsed"),
    ("quotes found", "desk", "/quotes/?q=noor"),
    ("quotes found by two words", "desk", "/quotes/?q=marel+tam"),
    ("customers", "desk", "/customers/"),
    ("engines", "desk", "/engines/"),
    ("bench", "builder", "/bench/"),
    ("invoices", "books", "/invoices/"),
    ("invoices found", "books", "/invoices/?q=noor"),
    ("invoices found by two words", "books", "/invoices/?q=marel+tam"),
    ("payments", "books", "/payments/"),
    ("journal", "books", "/books/journal/"),
    ("books", "books", "/books/"),
    ("overdue", "books", "/books/overdue/"),
    ("trial balance", "books", "/books/trial-balance/"),
    ("months", "books", "/books/months/"),
    ("find anything", "owner", "/find/?q=marel+tam"),
    ("find a number", "owner", "/find/?q=q20260001"),
    ("parts: one word", "desk", "/catalogue/search/?q=piston"),
    ("parts: three words", "desk", "/catalogue/search/?q=inlet+valve+forged"),
    ("parts: a number", "desk", "/catalogue/search/?q=bd00004"),
    ("parts: nothing fits", "desk", "/catalogue/search/?q=camshft"),
)
PROMISED = ("home", "worksheet", "quotes", "parts")
"""How the names of those begin that stand under `PROMISED_MS`."""
LISTS = frozenset(
    {"quotes", "quotes, page 40", "quotes by customer", "quotes by sum", "quotes issued", "quotes lapsed"}
    | {"quotes found", "customers", "engines", "bench", "invoices", "invoices found", "payments", "journal"}
)
"""Lists, each held against itself at a hundredth of the size."""
HELD_AGAINST = {"quotes issued": "quotes"}
"""What shows half a page there (12 rows and 25) is held against a whole page of the same list."""


@dataclass(frozen=True, slots=True)
class Timed:
    """One page at one size. Times are medians in milliseconds; `cpu_ms` is that of the site's own process."""

    database: str
    share: float
    page: str
    queries: int
    ms: float
    cpu_ms: float

    @property
    def late(self) -> bool:
        return self.page.startswith(PROMISED) and self.ms > PROMISED_MS
