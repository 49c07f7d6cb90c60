"""An extra-work offer as a value for page and paper."""

from __future__ import annotations

from datetime import date
from typing import Literal, cast

from django.utils import timezone

from catalogue.queries import engine_type_choices
from quotes.calc.bench.committed import TOUCHES_IN_WORDS
from quotes.calc.bench.extra_sheet import ExtraLine, ExtraSheet
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.sums import line_net
from quotes.models import ExtraWork, Workshop
from quotes.queries.engines import known_catalogue
from quotes.queries.sheets import customer_party, workshop_party
from quotes.queries.workshop import currency_decimals


def extra_sheet(extra: ExtraWork, on: date) -> ExtraSheet:
    """The offer as it was made, with its answer as it stands on that day."""
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
        currency=workshop.currency,
        decimals=decimals,
        on=timezone.localdate(extra.offered_at),
        words=extra.words,
        found=_found(extra),
        risk=extra.risk_if_declined,
        rider_safety=extra.rider_safety,
        why_asked=tuple(TOUCHES_IN_WORDS[one] for one in extra.touches if one in TOUCHES_IN_WORDS),
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
    if extra.finding is None:
        return ""
    place = f"{extra.finding.place}: " if extra.finding.place else ""
    cause = f" Cause: {extra.finding.cause}." if extra.finding.cause else ""
    return f"{place}{extra.finding.words or extra.words}.{cause}"


def _names(type_code: str, operations: list[str]) -> tuple[str, ...]:
    catalogue = known_catalogue(type_code)
    known = catalogue.operations if catalogue else {}
    return tuple(known[code].name for code in operations if code in known)


def _answered(extra: ExtraWork) -> str:
    if extra.answered_at is None:
        return ""
    said = "yes" if extra.state == "accepted" else "no"
    on = timezone.localdate(extra.answered_at)
    note = f" “{extra.answer_note}”" if extra.answer_note else ""
    return f"{extra.answered_by} said {said} on {on.day} {on:%B %Y}. {extra.answered_how}.{note}"
