"""The sentences of the day sheet: who must act, what to do, and where it is done."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from django.utils import timezone

from catalogue.calc.said import say, say_figure
from catalogue.queries.price_lists import to_take_in
from quotes.calc.said_days import said_weekday
from quotes.documents.words import first_large
from quotes.models import Acceptance, BackgroundWork, Enquiry, Quote
from quotes.queries import today
from quotes.queries.set_up import set_up_gaps
from quotes.views.today.item import CUSTOMER, DESK, OWNER, Item, Types, day_words, engine_words

SHOWN_OF_QUESTION = 90


@dataclass(frozen=True, slots=True)
class ItemSheet:
    """Lines of several sorts. `cut`: of one there are as many as are ever shown, so there may be more."""

    items: list[Item]
    cut: bool


def for_us(on: date, types: Types, *, owner: bool, more: Iterable[list[Item]] = ()) -> ItemSheet:
    """What the desk has to do, and the owner; what must be done today first, then the oldest."""
    sorts = [
        *more,
        [*_questions(types)],
        [*_lapsing(on, types)],
        [*_unsent(types)],
        [*_ring_back()],
        [*_lapsed(on, types)],
    ]
    if owner:
        sorts += [[*_failed_work()], [*_price_lists()], [*_set_up()]]
    items = [item for each in sorts for item in each]
    return ItemSheet(
        sorted(items, key=lambda item: (not item.must, item.since or timezone.now())),
        any(len(each) >= today.MOST for each in sorts),
    )


def waiting(on: date, types: Types) -> list[Item]:
    """Quotes whose answer is the customer's to give."""
    return [
        _quote_item(
            quote,
            types,
            CUSTOMER,
            say("Yes or no to {quote}; stands until {day}", quote=_sent(quote), day=_last_day(quote)),
        )
        for quote in today.waiting(on)
    ]


def coming_in(on: date) -> list[Item]:
    """Engines that arrive within the week."""
    return [
        Item(
            who=said_weekday(booking.arrive_by),
            what=say(
                "Comes in: {customer}, {how}",
                customer=booking.enquiry.customer.name,
                how=booking.get_delivered_display(),
            ),
            page="booking",
            key=booking.pk,
            engine=(booking.enquiry.engine_words, ""),
        )
        for booking in today.coming_in(on)
    ]


def accepted_today(on: date, types: Types) -> list[Item]:
    """What was said yes to today."""
    midnight = timezone.make_aware(datetime.combine(on, datetime.min.time()))
    return [accepted_item(yes, types, DESK) for yes in today.accepted_since(midnight)]


def accepted_item(yes: Acceptance, types: Types, who: str) -> Item:
    return Item(
        who=say(who),
        what=say(
            "{name} said yes to {quote}, {option}",
            name=yes.name,
            quote=yes.quote.title,
            option=yes.tier_name,
        ),
        page="build-money",
        key=yes.pk,
        engine=engine_words(yes.quote.engine, types),
        amount=yes.gross,
        since=yes.accepted_at,
    )


def _quote_item(quote: Quote, types: Types, who: str, what: str, *, must: bool = False) -> Item:
    latest = quote.latest
    return Item(
        who=say(who),
        what=what,
        page="quote",
        key=quote.pk,
        engine=engine_words(quote.engine, types),
        amount=latest.gross_from if latest else None,
        since=latest.issued_at if latest else quote.edited_at,
        must=must,
    )


def _sent(quote: Quote) -> str:
    if quote.latest is None:
        return quote.title
    return say("{quote}, revision {number}", quote=quote.title, number=quote.latest.index)


def _last_day(quote: Quote) -> str:
    return day_words(quote.latest.valid_until) if quote.latest else ""


def _questions(types: Types) -> Iterator[Item]:
    for reply in today.questions():
        quote = reply.revision.quote
        text = " ".join(reply.text.split())
        text = text if len(text) <= SHOWN_OF_QUESTION else f"{text[:SHOWN_OF_QUESTION]}…"
        yield Item(
            who=say(DESK),
            what=say(
                "Answer {name} on {quote}: “{question}”",
                name=reply.name or quote.customer.name,
                quote=quote.title,
                question=text,
            ),
            page="quote",
            key=quote.pk,
            engine=engine_words(quote.engine, types),
            amount=reply.revision.gross_from,
            since=reply.at,
            must=True,
        )


def _lapsing(on: date, types: Types) -> Iterator[Item]:
    for quote in today.lapsing(on):
        what = say(
            "Ring {customer}: {quote} stands until {day}",
            customer=quote.customer.name,
            quote=_sent(quote),
            day=_last_day(quote),
        )
        tomorrow = on + timedelta(days=1)
        must = quote.latest is not None and quote.latest.valid_until <= tomorrow
        yield _quote_item(quote, types, DESK, what, must=must)


def _lapsed(on: date, types: Types) -> Iterator[Item]:
    for quote in today.lapsed(on):
        what = say(
            "Ring {customer}: {quote} lapsed on {day} without an answer",
            customer=quote.customer.name,
            quote=_sent(quote),
            day=_last_day(quote),
        )
        gone = datetime.combine(quote.latest.valid_until, datetime.min.time()) if quote.latest else None
        yield replace(
            _quote_item(quote, types, DESK, what), since=timezone.make_aware(gone) if gone else None
        )


def _unsent(types: Types) -> Iterator[Item]:
    for quote in today.unsent():
        what = say(
            "Finish {quote} for {customer}, or close it", quote=quote.title, customer=quote.customer.name
        )
        if quote.latest:
            what = say(
                "Issue revision {number} of {quote}: changed since {customer} was sent it",
                number=quote.latest.index + 1,
                quote=quote.title,
                customer=quote.customer.name,
            )
        yield replace(_quote_item(quote, types, DESK, what), since=quote.edited_at)


def _ring_back() -> Iterator[Item]:
    for enquiry in today.to_ring_back():
        yield _enquiry_item(enquiry)


def _enquiry_item(enquiry: Enquiry) -> Item:
    return Item(
        who=say(DESK),
        what=say(
            "Ring back {name}: enquiry {number}",
            name=enquiry.caller or enquiry.customer.name,
            number=enquiry.number,
        ),
        page="enquiry",
        key=enquiry.pk,
        engine=(enquiry.engine_words, ""),
        amount=enquiry.said_from,
        since=enquiry.kept_at,
    )


def _failed_work() -> Iterator[Item]:
    for work in BackgroundWork.objects.failed():
        what = say("{about} failed in the background", about=work.about)
        yield Item(first_large(say(OWNER)), what, "background", since=work.ended_at)


def _price_lists() -> Iterator[Item]:
    for row in to_take_in(today.MOST):
        counted = {kind: say_figure(row.counts[kind], 0) for kind in ("new", "dearer", "cheaper")}
        what = say(
            "Take in or throw away {file}: {new} new, {dearer} dearer, {cheaper} cheaper",
            file=row.name,
            **counted,
        )
        if open_held := row.counts["held"] - row.counts["yes"]:
            what = say("{what}, {held} held for your yes", what=what, held=say_figure(open_held, 0))
        yield Item(first_large(say(OWNER)), what, "price-list", row.pk, since=row.checked_at)


def _set_up() -> Iterator[Item]:
    for gap in set_up_gaps():
        yield Item(who=first_large(say(OWNER)), what=gap.sentence, page=gap.url_name, must=gap.blocks)
