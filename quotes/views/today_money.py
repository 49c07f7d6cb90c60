"""The day sheet's sentences about money: deposits, invoices to write, engines that may leave."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from quotes.models import Acceptance, OpenItem
from quotes.queries.books import waiting
from quotes.views.today_items import Item, Types, day_words, engine_words


def for_us(types: Types) -> list[Item]:
    """Deposits to ask for and builds to invoice."""
    return [*_deposits(types), *_to_invoice(types)]


def others(on: date, types: Types) -> list[Item]:
    """Deposits that were asked for and are not paid."""
    return [_deposit_open(item, on, types) for item in waiting.deposits_not_paid()]


def leaving(on: date, types: Types) -> list[Item]:
    """Builds that are done and paid."""
    return [
        _build(
            build, types, "Done", f"May leave: {build.quote.title} of {build.quote.customer}, done and paid"
        )
        for build in waiting.may_leave(on)
    ]


def _deposits(types: Types) -> Iterator[Item]:
    for build in waiting.deposits_to_ask():
        what = f"Ask {build.quote.customer} for the deposit on {build.quote.title}"
        item = _build(build, types, "Desk", what)
        yield Item(item.who, item.what, item.page, item.key, item.engine, build.deposit, build.accepted_at)


def _to_invoice(types: Types) -> Iterator[Item]:
    for build in waiting.done_not_invoiced():
        what = f"Invoice {build.quote.title}, {build.tier_name}, to {build.quote.customer}: it is done"
        item = _build(build, types, "Desk", what)
        yield Item(item.who, item.what, item.page, item.key, item.engine, build.gross, build.done_at)


def _build(build: Acceptance, types: Types, who: str, what: str) -> Item:
    return Item(who, what, "build-money", build.pk, engine_words(build.quote.engine, types))


def _deposit_open(item: OpenItem, on: date, types: Types) -> Item:
    build = item.invoice.build if item.invoice else None
    due = f", due {day_words(item.due_on)}" if item.due_on else ""
    late = item.due_on is not None and item.due_on < on
    what = f"Deposit of {item.customer} on {item.number}{due}: {'overdue' if late else 'not paid yet'}"
    return Item(
        who="Customer",
        what=what,
        page="invoice",
        key=item.invoice_id,
        engine=engine_words(build.quote.engine, types) if build else ("", ""),
        amount=item.open_amount,
    )
