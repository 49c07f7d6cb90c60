"""The booking confirmation: what the page and the PDF say, from one finished value."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Any

from django.template.loader import render_to_string

from quotes.calc.bench_words import hours_in_words
from quotes.calc.intake.booking_sheet import BookingSheet, BookingState, deposit_is_kept, deposit_sentence
from quotes.calc.sheet.values import Party
from quotes.documents.pdf import printed
from quotes.documents.words import NO_BREAK, long_day, money, round_money, spoken

Rows = tuple[tuple[str, str], ...]
LANGUAGE = ""
"""The one in hand."""


@dataclass(frozen=True, slots=True)
class PaperHeading:
    """What the head of a paper document asks for."""

    workshop: Party
    customer: Party
    language: str = field(default_factory=spoken)


def booking_pdf(sheet: BookingSheet, state: BookingState) -> bytes:
    """The confirmation on paper, with a place to sign where nobody has agreed to the terms yet."""
    html = render_to_string("documents/booking.html", booking_context(sheet, state))
    return printed(html, paper_style(sheet.paper))


def paper_style(paper: str) -> str:
    """The style sheet of paper documents on this size of paper."""
    return f"@page {{ size: {paper}; }}\n{render_to_string('documents/paper.css')}"


def at_lines(shop: Party) -> list[str]:
    """How to reach the workshop, for the head of a document."""
    return [*shop.lines, *filter(None, (shop.telephone, shop.email, shop.tax_registration))]


def booking_context(sheet: BookingSheet, state: BookingState) -> dict[str, Any]:
    """Everything that the confirmation says."""
    made = long_day(sheet.made_on, LANGUAGE)
    engine = ", ".join(filter(None, (sheet.engine_name, sheet.engine_number)))
    return {
        "heading": PaperHeading(sheet.workshop, sheet.customer),
        "title": f"Booking {sheet.number}: {engine}",
        "foot": f"{sheet.workshop.name} · Booking {sheet.number} · {made}",
        "at": at_lines(sheet.workshop),
        "made": f"{sheet.made_on:%Y-%m-%d}T00:00:00Z",
        "strip": (
            ("Booking", sheet.number),
            ("Made on", made),
            ("Engine", engine),
            ("Here by", long_day(sheet.arrive_by, LANGUAGE)),
        ),
        "sheet": sheet,
        "state": state,
        "lead": _lead(sheet),
        "week": _week(sheet.slot_week),
        "facts": _facts(sheet),
        "deposit": deposit_sentence(sheet, _money(sheet, sheet.deposit)),
        "authority": _authority(sheet),
        "agreed": _agreed(state),
        "cancelled": _cancelled(state),
    }


def cancelling(sheet: BookingSheet, on: date) -> str:
    """What becomes of week and deposit where the booking is cancelled on that day."""
    if not sheet.deposit:
        return "The week becomes free for others."
    amount = _money(sheet, sheet.deposit)
    if deposit_is_kept(sheet, on):
        return (
            "The week becomes free for others. It is less than "
            f"{sheet.kept_inside_days} days away: the deposit of {amount} is not refunded."
        )
    return f"The week becomes free for others. A deposit of {amount} that was paid goes back."


def _money(sheet: BookingSheet, amount: Decimal) -> str:
    return money(amount, sheet.currency, sheet.decimals, LANGUAGE)


def _week(monday: date) -> str:
    return f"the week of Monday, {long_day(monday, LANGUAGE)}"


def _lead(sheet: BookingSheet) -> str:
    return (
        f"Your engine has {_week(sheet.slot_week)} on our bench. "
        f"It must be here by {long_day(sheet.arrive_by, LANGUAGE)}."
    )


def _band(sheet: BookingSheet) -> str:
    band = " to ".join(round_money(amount, sheet.currency, LANGUAGE) for amount in (sheet.low, sheet.high))
    return ", ".join(filter(None, (f"{band} with tax", sheet.subject_to))).replace(" with", f"{NO_BREAK}with")


def _facts(sheet: BookingSheet) -> Rows:
    rows = [
        ("Way of building", sheet.tier_name),
        ("Price band", _band(sheet)),
        ("Bench hours", hours_in_words(sheet.hours)),
        ("Week on the bench", f"from {long_day(sheet.slot_week, LANGUAGE)}"),
        ("Here at the latest", long_day(sheet.arrive_by, LANGUAGE)),
        ("Comes to us", sheet.delivered),
        ("Ready, 8 times in 10", f"by {long_day(sheet.ready_on, LANGUAGE)}"),
    ]
    if sheet.needed_on:
        late = sheet.ready_on >= sheet.needed_on
        rows.append(("Needed on", long_day(sheet.needed_on, LANGUAGE) + (": not certain" if late else "")))
    return tuple(rows)


def _authority(sheet: BookingSheet) -> Rows:
    limit = _money(sheet, sheet.limit_sum)
    asked = f"up to {limit} with tax" if sheet.limit_sum else "nothing: every extra is asked first"
    return (
        ("Who may say yes", f"{sheet.authority}: {sheet.authority_name}"),
        ("How a yes is given", sheet.said_how),
        ("More without asking", asked),
        ("Old parts", sheet.old_parts),
    )


def _agreed(state: BookingState) -> str:
    if state.agreed_on is None:
        return ""
    return f"{state.agreed_by} agreed to these terms on {long_day(state.agreed_on, LANGUAGE)}."


def _cancelled(state: BookingState) -> str:
    if state.cancelled_on is None:
        return ""
    return f"Cancelled on {long_day(state.cancelled_on, LANGUAGE)}: {state.cancelled_because}"
