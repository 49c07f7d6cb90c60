"""How often a thing stands in the record, and whether whole; asked of the database past the pages."""

from __future__ import annotations

import json
from collections.abc import Callable

from catalogue.models import ListState, PriceList
from quotes.models import (
    BackgroundWork,
    ClockRun,
    Customer,
    Engine,
    Invoice,
    InvoiceDraft,
    Job,
    Payment,
    Quote,
    Revision,
)
from quotes.queries.sheets import request_of
from tests.faults.acts import PRICED
from tests.faults.told import Standing


def customer(mark: str) -> Standing:
    return Standing(Customer.objects.filter(name=mark).count())


def engine(mark: str) -> Standing:
    """Whole with the stretch of service that was sent with it."""
    rows = list(Engine.objects.filter(number=mark).prefetch_related("segments"))
    return Standing(len(rows), all(row.segments.count() == 1 for row in rows))


def quote(mark: str) -> Standing:
    """Whole with its customer and engine: all three or none."""
    people, of_quote = Customer.objects.filter(name=mark).count(), engine(f"N{mark}")
    times = Quote.objects.filter(customer__name=mark).count()
    return Standing(times, whole=people == of_quote.times == times and of_quote.whole)


def change_of_a_draft(mark: str) -> Standing:
    """Each change asks for more than the one before, so one that came later covers it."""
    pk, amount = mark.split(":")
    planned = request_of(Quote.objects.get(pk=pk)).planned
    return Standing(int(planned.amount is not None and planned.amount >= int(amount)))


def issue_of_a_quote(mark: str) -> Standing:
    """Whole with its number."""
    rows = list(Revision.objects.filter(quote=int(mark)).select_related("quote"))
    return Standing(len(rows), whole=all(row.quote.number for row in rows))


def payment(mark: str) -> Standing:
    """Whole with its open item; `verify` looks at its entry."""
    rows = list(Payment.objects.filter(reference=mark).select_related("item"))
    return Standing(len(rows), whole=all(hasattr(row, "item") for row in rows))


def draft_of_an_invoice(mark: str) -> Standing:
    drafts = InvoiceDraft.objects.values_list("content", flat=True)
    return Standing(sum(f'"{mark}"' in json.dumps(content) for content in drafts.iterator()))


def invoice(mark: str) -> Standing:
    return Standing(Invoice.objects.filter(draft=int(mark)).count())


def engine_taken_in(mark: str) -> Standing:
    """Whole with its number."""
    rows = list(Job.objects.filter(tag=mark))
    return Standing(len(rows), whole=all(row.number for row in rows))


def clock_started(mark: str) -> Standing:
    return Standing(ClockRun.objects.filter(key=mark).count())


def clock_stopped(mark: str) -> Standing:
    return Standing(ClockRun.objects.filter(pk=int(mark)).exclude(stopped_at=None).count())


IN_A_FILE = 200
IN_A_PRICE_LIST = 3000


def import_of_customers(mark: str) -> Standing:
    """Whole with every line of its file."""
    rows = Customer.objects.filter(name__startswith=f"{mark} ").count()
    return Standing(-(-rows // IN_A_FILE), whole=rows % IN_A_FILE == 0)


def taking_in_of_a_price_list(mark: str) -> Standing:
    """That it was asked for; whole with every article, in the list and in its history, or with none."""
    asked = BackgroundWork.objects.filter(key__startswith=f"price-list:{mark}:take:").count()
    return Standing(asked, whole=_whole(PriceList.objects.get(pk=mark), PRICED))


def import_of_prices(mark: str) -> Standing:
    row = PriceList.objects.filter(name=f"{mark}.csv").first()
    return Standing(0) if row is None else Standing(1, whole=_whole(row, IN_A_PRICE_LIST))


def _whole(row: PriceList, articles: int) -> bool:
    """A command keeps the file and takes it in as one."""
    wanted = articles if row.state == ListState.IN_FORCE else 0
    return row.listed_parts.count() == row.prices.count() == wanted


ALL: tuple[Callable[[str], Standing], ...] = (
    customer,
    engine,
    quote,
    change_of_a_draft,
    issue_of_a_quote,
    payment,
    draft_of_an_invoice,
    invoice,
    engine_taken_in,
    clock_started,
    clock_stopped,
    import_of_customers,
    taking_in_of_a_price_list,
    import_of_prices,
)
BY_NAME = {one.__name__.replace("_", " "): one for one in ALL}


def standing(what: str, mark: str) -> Standing:
    return BY_NAME[what](mark)
