"""The booking confirmation: what the page and the PDF say, from one finished value."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from catalogue.calc.said import say
from quotes.calc.bench_words import hours_in_words
from quotes.calc.intake.booking_sheet import BookingSheet, BookingState, deposit_is_kept, deposit_sentence
from quotes.documents.letterhead import (
    LANGUAGE,
    PaperHeading,
    Rows,
    engine_in_words,
    paper_frame,
    paper_style,
)
from quotes.documents.pdf import printed
from quotes.documents.speech import paper_in
from quotes.documents.words import NO_BREAK, long_day, money, round_money


def booking_pdf(sheet: BookingSheet, state: BookingState) -> bytes:
    """The confirmation on paper, with a place to sign where nobody has agreed to the terms yet."""
    html = paper_in(sheet.language, "documents/booking.html", lambda: booking_context(sheet, state))
    return printed(html, paper_style(sheet.paper))


def booking_context(sheet: BookingSheet, state: BookingState) -> dict[str, Any]:
    """Everything that the confirmation says."""
    made = long_day(sheet.made_on, LANGUAGE)
    engine = engine_in_words(sheet)
    return paper_frame(
        PaperHeading(sheet.workshop, sheet.customer, sheet.language),
        sheet.made_on,
        title=say("Booking {number}: {engine}", number=sheet.number, engine=engine),
        foot=say(
            "{workshop} · Booking {number} · {day}",
            workshop=sheet.workshop.name,
            number=sheet.number,
            day=made,
        ),
        strip=(
            (say("Booking"), sheet.number),
            (say("Made on"), made),
            (say("Engine"), engine),
            (say("Here by"), long_day(sheet.arrive_by, LANGUAGE)),
        ),
    ) | {
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
        return say("The week becomes free for others.")
    amount = _money(sheet, sheet.deposit)
    if deposit_is_kept(sheet, on):
        return say(
            "The week becomes free for others. It is less than {days} days away: the deposit of {sum} is not "
            "refunded.",
            days=sheet.kept_inside_days,
            sum=amount,
        )
    return say("The week becomes free for others. A deposit of {sum} that was paid goes back.", sum=amount)


def _money(sheet: BookingSheet, amount: Decimal) -> str:
    return money(amount, sheet.currency, sheet.decimals, LANGUAGE)


def _week(monday: date) -> str:
    return say("the week of Monday, {day}", day=long_day(monday, LANGUAGE))


def _lead(sheet: BookingSheet) -> str:
    return say(
        "Your engine has {week} on our bench. It must be here by {day}.",
        week=_week(sheet.slot_week),
        day=long_day(sheet.arrive_by, LANGUAGE),
    )


def _band(sheet: BookingSheet) -> str:
    low, high = (round_money(amount, sheet.currency, LANGUAGE) for amount in (sheet.low, sheet.high))
    band = say("{low} to {high}{gap}with tax", low=low, high=high, gap=NO_BREAK)
    return ", ".join(filter(None, (band, say(sheet.subject_to))))


def _facts(sheet: BookingSheet) -> Rows:
    rows = [
        (say("Way of building"), sheet.tier_name),
        (say("Price band"), _band(sheet)),
        (say("Bench hours"), hours_in_words(sheet.hours)),
        (say("Week on the bench"), say("from {day}", day=long_day(sheet.slot_week, LANGUAGE))),
        (say("Here at the latest"), long_day(sheet.arrive_by, LANGUAGE)),
        (say("Comes to us"), sheet.delivered),
        (say("Ready, 8 times in 10"), say("by {day}", day=long_day(sheet.ready_on, LANGUAGE))),
    ]
    if sheet.needed_on:
        needed = long_day(sheet.needed_on, LANGUAGE)
        late = sheet.ready_on >= sheet.needed_on
        rows.append((say("Needed on"), say("{day}: not certain", day=needed) if late else needed))
    return tuple(rows)


def _authority(sheet: BookingSheet) -> Rows:
    limit = _money(sheet, sheet.limit_sum)
    asked = say("nothing: every extra is asked first")
    if sheet.limit_sum:
        asked = say("up to {sum} with tax", sum=limit)
    return (
        (say("Who may say yes"), f"{sheet.authority}: {sheet.authority_name}"),
        (say("How a yes is given"), sheet.said_how),
        (say("More without asking"), asked),
        (say("Old parts"), sheet.old_parts),
    )


def _agreed(state: BookingState) -> str:
    if state.agreed_on is None:
        return ""
    day = long_day(state.agreed_on, LANGUAGE)
    return say("{name} agreed to these terms on {day}.", name=state.agreed_by, day=day)


def _cancelled(state: BookingState) -> str:
    if state.cancelled_on is None:
        return ""
    day = long_day(state.cancelled_on, LANGUAGE)
    return say("Cancelled on {day}: {reason}", day=day, reason=state.cancelled_because)
