"""The release note that the collector signs, and the running-in card that the rider takes along."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.template.loader import render_to_string

from catalogue.calc.said import say, say_figure, to_say
from quotes.calc.ask.request import Unit
from quotes.calc.bench.ages.next_due import ACT_IN_WORDS
from quotes.calc.bench.leaving.release_sheet import CAUTIONS, DueLine, ReleaseSheet
from quotes.calc.bench.leaving.running_in import MANUAL_GOVERNS, RunningIn
from quotes.calc.life.units import WORDS
from quotes.calc.said_days import said_month
from quotes.calc.sheet.unit_words import plain_figure
from quotes.documents.letterhead import LANGUAGE, PaperHeading, engine_in_words, paper_frame, paper_style
from quotes.documents.pdf import printed
from quotes.documents.speech import paper_in
from quotes.documents.words import long_day, money

ONE_AND_MANY: dict[Unit, tuple[str, str]] = {
    "h": (to_say("{count} hour"), to_say("{count} hours")),
    "mi": (to_say("{count} mile"), to_say("{count} miles")),
    "km": (to_say("{count} kilometre"), to_say("{count} kilometres")),
    "runs": (to_say("{count} run"), to_say("{count} runs")),
}
HALF_SHEET = {"A4": "A5", "Letter": "5.5in 8.5in"}
"""The card is half of the workshop's paper."""


def note_pdf(sheet: ReleaseSheet) -> bytes:
    """The note, with a place to sign for whoever fetches the engine."""
    style = f"{paper_style(sheet.paper)}\n{render_to_string('documents/bench/release.css')}"
    html = paper_in(sheet.language, "documents/bench/release_note.html", lambda: note_context(sheet))
    return printed(html, style)


def card_pdf(sheet: ReleaseSheet) -> bytes:
    """The card, on half a sheet."""
    style = f"{paper_style(HALF_SHEET[sheet.paper])}\n{render_to_string('documents/bench/card.css')}"
    html = paper_in(sheet.language, "documents/bench/running_in.html", lambda: _card_paper(sheet))
    return printed(html, style)


def _card_paper(sheet: ReleaseSheet) -> dict[str, Any]:
    head = _head(sheet, say("Running-in"))
    return {**head, "strip": head["strip"][:3], **card_context(sheet.card), "sheet": sheet}


def note_context(sheet: ReleaseSheet) -> dict[str, Any]:
    """Everything that the note says, in words."""
    return {
        **_head(sheet, say("Release note")),
        "sheet": sheet,
        "facts": _facts(sheet),
        "paid": _paid(sheet),
        "safety": [one for one in sheet.declined if one.rider_safety],
        "declined": [one for one in sheet.declined if not one.rider_safety],
        "dues": [(one.name, say(ACT_IN_WORDS[one.act]), amount_due(one), _when(one)) for one in sheet.dues],
        "cautions": [say(one) for one in CAUTIONS],
        **card_context(sheet.card),
    }


def _head(sheet: ReleaseSheet, what: str) -> dict[str, Any]:
    made = long_day(sheet.on, LANGUAGE)
    engine = engine_in_words(sheet)
    return paper_frame(
        PaperHeading(sheet.workshop, sheet.customer),
        sheet.on,
        title=f"{what} {sheet.number}: {engine}",
        foot=f"{sheet.workshop.name} · {what} {sheet.number} · {made}",
        strip=(
            (say("Release"), sheet.number),
            (say("Handed over"), made),
            (say("Engine"), engine),
            (say("Job"), sheet.job),
        ),
    ) | {"engine": engine}


def _facts(sheet: ReleaseSheet) -> tuple[tuple[str, str], ...]:
    rows = (
        (say("Handed to"), sheet.released_to),
        (say("He showed"), sheet.shown),
        (say("Handed over by"), sheet.released_by),
        (say("Our seal"), sheet.seal or say("none")),
        (say("Built"), sheet.build),
        (say("It had run"), sheet.service or say("not known")),
        (say("Old parts"), say(sheet.old_parts)),
        (say("Hours"), _hours(sheet)),
        (
            say("Assembly record"),
            say(
                "closed {day}, {name}",
                day=long_day(sheet.record_closed_on, LANGUAGE),
                name=sheet.record_closed_by,
            ),
        ),
        (say("Final check"), f"{long_day(sheet.checked_on, LANGUAGE)}, {sheet.checked_by}"),
    )
    return tuple((label, words) for label, words in rows if words)


def _hours(sheet: ReleaseSheet) -> str:
    if not sheet.hours_quoted and not sheet.hours_clocked:
        return ""
    return say(
        "{spent} spent, {quoted} quoted",
        spent=say_figure(sheet.hours_clocked, 1),
        quoted=say_figure(sheet.hours_quoted, 1),
    )


def _paid(sheet: ReleaseSheet) -> str:
    if not sheet.open_sum:
        return say("Nothing is left to pay.")
    left = money(sheet.open_sum, sheet.currency, sheet.decimals, LANGUAGE)
    said = sheet.unpaid_consent.rstrip(".")
    return say(
        "{left} is still to pay. {name} let it go before that: {said}.",
        left=left,
        name=sheet.consent_by,
        said=said,
    )


def amount_due(one: DueLine) -> str:
    return f"{plain_figure(one.amount)} {say(WORDS[one.unit])}" if one.amount else say("now")


def _when(one: DueLine) -> str:
    if one.before_event is None:
        return said_month(one.on)
    return say("before meeting {meeting}", meeting=one.before_event)


def card_context(card: RunningIn) -> dict[str, Any]:
    """What the rider must do and when, in words."""
    return {
        "card": card,
        "marks": tuple(_marks(card)),
        "governs": say(MANUAL_GOVERNS),
        "source": f"{card.source[:1].upper()}{card.source[1:]}.",
    }


def _marks(card: RunningIn) -> list[tuple[str, str]]:
    rows = [(say("First oil and filter change"), say("at {amount}", amount=_amount(card.oil_at, card)))]
    if card.rev_limit_pct < 100:
        limit = say(
            "{pct} per cent of the rev limit, until {until}",
            pct=card.rev_limit_pct,
            until=_amount(card.revs_until, card),
        )
        rows.insert(0, (say("Keep under"), limit))
    if card.recheck_at is not None:
        rows.append((say("Look again at"), f"{_amount(card.recheck_at, card)}: {'; '.join(card.recheck)}"))
    else:
        rows.append(
            (say("Look again"), say("at the first oil change: {recheck}", recheck="; ".join(card.recheck)))
        )
    return rows


def _amount(amount: Decimal, card: RunningIn) -> str:
    one, many = ONE_AND_MANY[card.unit]
    return say(one if amount == 1 else many, count=plain_figure(amount))
