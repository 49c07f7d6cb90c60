"""An extra-work offer as a value for page and paper."""

from __future__ import annotations

from datetime import date
from typing import Literal, cast

from django.utils import timezone, translation

from catalogue.calc.said import say
from catalogue.queries import engine_type_choices
from quotes.calc.bench.again.committed import TOUCHES_IN_WORDS
from quotes.calc.bench.again.extra_sheet import ExtraLine, ExtraSheet
from quotes.calc.bench.teardown.places import place_in_words
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.sums import line_net
from quotes.calc.said_days import said_day
from quotes.models import ExtraWork, Workshop
from quotes.queries.engines import known_catalogue
from quotes.queries.sheets import customer_party, workshop_party
from quotes.queries.workshop import currency_decimals


def extra_sheet(extra: ExtraWork, on: date) -> ExtraSheet:
    """The offer as it was made, with its answer as it stands on that day."""
    with translation.override(extra.build.quote.customer.reads):
        return _sheet(extra, on)


def _sheet(extra: ExtraWork, on: date) -> ExtraSheet:
    workshop = Workshop.objects.get_or_default()
    quote, decimals = extra.build.quote, currency_decimals(workshop.currency)
    types = dict(engine_type_choices())
    return ExtraSheet(
        number=extra.number,
        quote_number=quote.number or "",
        engine_name=types.get(quote.engine.type_code, quote.engine.type_code),
        engine_number=quote.engine.number,
        workshop=workshop_party(workshop),
        customer=customer_party(quote.customer),
        paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
        language=quote.customer.reads,
        currency=workshop.currency,
        decimals=decimals,
        on=timezone.localdate(extra.offered_at),
        words=extra.words,
        found=_found(extra),
        risk=extra.risk_if_declined,
        rider_safety=extra.rider_safety,
        why_asked=tuple(say(TOUCHES_IN_WORDS[one]) for one in extra.touches if one in TOUCHES_IN_WORDS),
        stops=_names(quote.engine.type_code, extra.stops),
        lines=tuple(_line(DraftLine.model_validate(line), decimals) for line in extra.lines),
        net=extra.net,
        tax=extra.tax,
        gross=extra.gross,
        old_gross=extra.build.gross if extra.old_gross is None else extra.old_gross,
        new_gross=extra.build.gross + extra.gross if extra.new_gross is None else extra.new_gross,
        old_ready_on=extra.old_ready_on,
        new_ready_on=extra.new_ready_on,
        state=cast(Literal["offered", "accepted", "declined", "within", "withdrawn"], str(extra.state)),
        answered=_answered(extra),
    )


def _line(line: DraftLine, decimals: int) -> ExtraLine:
    return ExtraLine(
        description=line.description,
        quantity=line.quantity,
        unit=line.unit,
        net=line_net(line, decimals),
        why=line.note,
    )


def _found(extra: ExtraWork) -> str:
    """What the finding says beyond the offer's own words, which stand above it."""
    if extra.finding is None:
        return ""
    place, words = extra.finding.place, extra.finding.words
    seen = ": ".join(filter(None, (place_in_words(place) if place else "", f"{words}."))) if words else ""
    if not extra.finding.cause:
        return seen
    return say("{seen} Cause: {cause}.", seen=seen, cause=extra.finding.cause).strip()


def _names(type_code: str, operations: list[str]) -> tuple[str, ...]:
    catalogue = known_catalogue(type_code)
    known = catalogue.operations if catalogue else {}
    return tuple(known[code].name for code in operations if code in known)


def _answered(extra: ExtraWork) -> str:
    if extra.answered_at is None:
        return ""
    places = {
        "name": extra.answered_by,
        "day": said_day(timezone.localdate(extra.answered_at)),
        "how": say(extra.answered_how),
    }
    if extra.state == "accepted":
        answer = say("{name} said yes on {day}. {how}.", **places)
    else:
        answer = say("{name} said no on {day}. {how}.", **places)
    return say("{answer} “{note}”", answer=answer, note=extra.answer_note) if extra.answer_note else answer
