"""The release note that the collector signs, and the running-in card that the rider takes along."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.template.loader import render_to_string

from quotes.calc.bench.next_due import ACT_IN_WORDS
from quotes.calc.bench.release_sheet import CAUTIONS, DueLine, ReleaseSheet
from quotes.calc.bench.running_in import MANUAL_GOVERNS, RunningIn
from quotes.calc.life.units import WORDS
from quotes.documents.booking import LANGUAGE, PaperHeading, at_lines, paper_style
from quotes.documents.pdf import printed
from quotes.documents.words import long_day, money

HALF_SHEET = {"A4": "A5", "Letter": "5.5in 8.5in"}
"""The card is half of the workshop's paper."""


def note_pdf(sheet: ReleaseSheet) -> bytes:
    """The note, with a place to sign for whoever fetches the engine."""
    style = f"{paper_style(sheet.paper)}\n{render_to_string('documents/bench/release.css')}"
    return printed(render_to_string("documents/bench/release_note.html", note_context(sheet)), style)


def card_pdf(sheet: ReleaseSheet) -> bytes:
    """The card, on half a sheet."""
    head = _head(sheet, "Running-in")
    context = {**head, "strip": head["strip"][:3], **card_context(sheet.card), "sheet": sheet}
    style = f"{paper_style(HALF_SHEET[sheet.paper])}\n{render_to_string('documents/bench/card.css')}"
    return printed(render_to_string("documents/bench/running_in.html", context), style)


def note_context(sheet: ReleaseSheet) -> dict[str, Any]:
    """Everything that the note says, in words."""
    return {
        **_head(sheet, "Release note"),
        "sheet": sheet,
        "facts": _facts(sheet),
        "paid": _paid(sheet),
        "safety": [one for one in sheet.declined if one.rider_safety],
        "declined": [one for one in sheet.declined if not one.rider_safety],
        "dues": [(one.name, ACT_IN_WORDS[one.act], amount_due(one), _when(one)) for one in sheet.dues],
        "cautions": CAUTIONS,
        **card_context(sheet.card),
    }


def _head(sheet: ReleaseSheet, what: str) -> dict[str, Any]:
    made = long_day(sheet.on, LANGUAGE)
    engine = ", ".join(filter(None, (sheet.engine_name, sheet.engine_number)))
    return {
        "heading": PaperHeading(sheet.workshop, sheet.customer),
        "title": f"{what} {sheet.number}: {engine}",
        "foot": f"{sheet.workshop.name} · {what} {sheet.number} · {made}",
        "at": at_lines(sheet.workshop),
        "made": f"{sheet.on:%Y-%m-%d}T00:00:00Z",
        "engine": engine,
        "strip": (("Release", sheet.number), ("Handed over", made), ("Engine", engine), ("Job", sheet.job)),
    }


def _facts(sheet: ReleaseSheet) -> tuple[tuple[str, str], ...]:
    rows = (
        ("Handed to", sheet.released_to),
        ("He showed", sheet.shown),
        ("Handed over by", sheet.released_by),
        ("Our seal", sheet.seal or "none"),
        ("Built", sheet.build),
        ("It had run", sheet.service or "not known"),
        ("Old parts", sheet.old_parts),
        ("Hours", _hours(sheet)),
        ("Assembly record", f"closed {long_day(sheet.record_closed_on, LANGUAGE)}, {sheet.record_closed_by}"),
        ("Final check", f"{long_day(sheet.checked_on, LANGUAGE)}, {sheet.checked_by}"),
    )
    return tuple((label, words) for label, words in rows if words)


def _hours(sheet: ReleaseSheet) -> str:
    if not sheet.hours_quoted and not sheet.hours_clocked:
        return ""
    return f"{sheet.hours_clocked:.1f} spent, {sheet.hours_quoted:.1f} quoted"


def _paid(sheet: ReleaseSheet) -> str:
    if not sheet.open_sum:
        return "Nothing is left to pay."
    left = money(sheet.open_sum, sheet.currency, sheet.decimals, LANGUAGE)
    said = sheet.unpaid_consent.rstrip(".")
    return f"{left} is still to pay. {sheet.consent_by} let it go before that: {said}."


def amount_due(one: DueLine) -> str:
    return f"{one.amount:,f} {WORDS[one.unit]}" if one.amount else "now"


def _when(one: DueLine) -> str:
    return f"{one.on:%B %Y}" if one.before_event is None else f"before meeting {one.before_event}"


def card_context(card: RunningIn) -> dict[str, Any]:
    """What the rider must do and when, in words."""
    return {
        "card": card,
        "marks": tuple(_marks(card)),
        "governs": MANUAL_GOVERNS,
        "source": f"{card.source[:1].upper()}{card.source[1:]}.",
    }


def _marks(card: RunningIn) -> list[tuple[str, str]]:
    rows = [("First oil and filter change", f"at {_amount(card.oil_at, card)}")]
    if card.rev_limit_pct < 100:
        limit = f"{card.rev_limit_pct} per cent of the rev limit, until {_amount(card.revs_until, card)}"
        rows.insert(0, ("Keep under", limit))
    if card.recheck_at is not None:
        rows.append(("Look again at", f"{_amount(card.recheck_at, card)}: {'; '.join(card.recheck)}"))
    else:
        rows.append(("Look again", f"at the first oil change: {'; '.join(card.recheck)}"))
    return rows


def _amount(amount: Decimal, card: RunningIn) -> str:
    words = {"h": "hour", "mi": "mile", "km": "kilometre", "runs": "run"}[card.unit]
    return f"{amount.normalize():,f} {words}{'' if amount == 1 else 's'}"
