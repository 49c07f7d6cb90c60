"""The day sheet's sentences about money: deposits, invoices to write, engines that may leave."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from catalogue.calc.said import say
from quotes.models import Acceptance, OpenItem
from quotes.queries.books import waiting
from quotes.views.today.item import CUSTOMER, DESK, DONE, Item, Types, day_words, engine_words


def for_us(on: date, types: Types) -> tuple[list[Item], ...]:
    """Deposits to ask for, builds to invoice, and builds called off to settle."""
    return [*_deposits(types)], [*_to_invoice(types)], [*_to_settle(on, types)]


def others(on: date, types: Types) -> list[Item]:
    """Deposits that were asked for and are not paid."""
    return [_deposit_open(item, on, types) for item in waiting.deposits_not_paid()]


def leaving(on: date, types: Types) -> list[Item]:
    """Builds that are done and paid."""
    return [
        _build(
            build,
            types,
            DONE,
            say(
                "May leave: {quote} of {customer}, done and paid",
                quote=build.quote.title,
                customer=build.quote.customer,
            ),
        )
        for build in waiting.may_leave(on)
    ]


def _deposits(types: Types) -> Iterator[Item]:
    for build in waiting.deposits_to_ask():
        what = say(
            "Ask {customer} for the deposit on {quote}",
            customer=build.quote.customer,
            quote=build.quote.title,
        )
        item = _build(build, types, DESK, what)
        yield Item(item.who, item.what, item.page, item.key, item.engine, build.deposit, build.accepted_at)


def _to_invoice(types: Types) -> Iterator[Item]:
    for build in waiting.done_not_invoiced():
        what = say(
            "Invoice {quote}, {option}, to {customer}: it is done",
            quote=build.quote.title,
            option=build.tier_name,
            customer=build.quote.customer,
        )
        item = _build(build, types, DESK, what)
        yield Item(item.who, item.what, item.page, item.key, item.engine, build.gross, build.done_at)


def _to_settle(on: date, types: Types) -> Iterator[Item]:
    for found in waiting.called_off_to_settle(on):
        build = found.called_off.build
        told = {"quote": build.quote.title, "customer": build.quote.customer}
        if found.held:
            what = say(
                "Settle {quote} of {customer}, called off: invoice what was done, pay back what is left",
                **told,
            )
        else:
            what = say("Invoice {quote} of {customer}, called off: what was done until then", **told)
        item = _build(build, types, DESK, what)
        yield replace(item, since=found.called_off.at)


def _build(build: Acceptance, types: Types, who: str, what: str) -> Item:
    return Item(say(who), what, "build-money", build.pk, engine_words(build.quote.engine, types))


def _deposit_open(item: OpenItem, on: date, types: Types) -> Item:
    build = item.invoice.build if item.invoice else None
    return Item(
        who=say(CUSTOMER),
        what=_not_paid(item, on),
        page="invoice",
        key=item.invoice_id,
        engine=engine_words(build.quote.engine, types) if build else ("", ""),
        amount=item.open_amount,
    )


def _not_paid(item: OpenItem, on: date) -> str:
    told = {"customer": item.customer, "number": item.number}
    if item.due_on is None:
        return say("Deposit of {customer} on {number}: not paid yet", **told)
    told["day"] = day_words(item.due_on)
    if item.due_on < on:
        return say("Deposit of {customer} on {number}, due {day}: overdue", **told)
    return say("Deposit of {customer} on {number}, due {day}: not paid yet", **told)
