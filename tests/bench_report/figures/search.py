"""Finding anything by what somebody types, beside a bare Django view with the same queries."""

from __future__ import annotations

from dataclasses import replace

from tests.bench_report.bare_page import PageWork, page_work
from tests.bench_report.figures.pages import HOME


def prepare(quotes: int) -> PageWork:
    return page_work("/find/?q=piston", "owner")


SEARCH = replace(HOME, name="search", what="finding anything by a word", prepare=prepare)
