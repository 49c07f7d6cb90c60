"""The page of a quote, worked out anew, beside the same queries and the solver on the same programmes."""

from __future__ import annotations

from functools import partial

from django.http import HttpResponse

from tests.bench_report.bare_page import PageWork, bare_page, opened, page_work
from tests.bench_report.figure import Figure
from tests.bench_report.figures.options import programmes_of, recorded


def prepare(quotes: int) -> PageWork:
    from quotes.models import Quote

    quote = Quote.objects.filter(latest=None).order_by("-pk").first() or Quote.objects.order_by("-pk")[0]
    _forget()
    with recorded() as programmes:
        work = page_work(f"/quotes/{quote.pk}/", "desk")
    assert programmes, "nothing was worked out"
    work.besides = partial(programmes_of, programmes)
    return work


def ours(work: PageWork) -> HttpResponse:
    """As after an hour in which others worked: what was worked out a moment ago is not kept."""
    _forget()
    return opened(work)


def _forget() -> None:
    from quotes.queries.comparison import _worked_out

    _worked_out.cache_clear()


QUOTE_PAGE = Figure(
    name="quote-page",
    what="page of a quote, worked out anew",
    bare_is="the same queries, scipy's milp on the same programmes, a plain table",
    unit="quotes",
    sizes=(100, 1_000, 10_000),
    prepare=prepare,
    ours=ours,
    bare=bare_page,
    needs="years",
    runs=3,
)
