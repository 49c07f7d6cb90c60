"""Lists and first pages with years of trading behind them, beside a bare view with the same queries."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from tests.bench_report.bare_list import bare_list
from tests.bench_report.bare_page import PageWork, bare_page, opened, page_work
from tests.bench_report.figure import Figure

SIZES = (100, 1_000, 10_000)
LISTS = (
    ("quotes", "list of quotes", "/quotes/", "desk"),
    ("customers", "list of customers", "/customers/", "desk"),
    ("engines", "list of engines", "/engines/", "builder"),
    ("invoices", "list of invoices", "/invoices/", "books"),
    ("journal-page", "journal on the page", "/books/journal/", "books"),
    ("parts", "list of parts", "/catalogue/parts/", "owner"),
)


def prepare(quotes: int, *, address: str, user: str) -> PageWork:
    work = page_work(address, user)
    work.view = bare_list(address)
    return work


def first_page(quotes: int) -> PageWork:
    return page_work("/", "desk")


def found(quotes: int) -> PageWork:
    return page_work("/find/?q=piston", "owner")


HOME = Figure(
    name="page-home",
    what="first page of the desk",
    bare_is="a Django view with the same queries and a plain table",
    unit="quotes",
    sizes=SIZES,
    prepare=first_page,
    ours=opened,
    bare=bare_page,
    needs="years",
)
FIND = replace(HOME, name="page-find", what="finding anything by a word", prepare=found)
PAGES = (
    HOME,
    FIND,
    *(
        Figure(
            name=f"page-{name}",
            what=what,
            bare_is="django-tables2 and django-filter with the same rows, table and filters",
            unit="quotes",
            sizes=SIZES,
            prepare=partial(prepare, address=address, user=user),
            ours=opened,
            bare=bare_page,
            needs="years",
            runs=9,
            goal=1.3,
        )
        for name, what, address, user in LISTS
    ),
)
