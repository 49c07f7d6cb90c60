"""What differs between two states of a draft invoice, in words."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.calc.said import say
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.sheet.issued_values import RevisionChange


def draft_changes(before: Draft, after: Draft) -> tuple[RevisionChange, ...]:
    """Lines and fields that differ, in their order; a line is known again by its key or its place."""
    return (*_lines(before, after), *_fields(before, after))


def _lines(before: Draft, after: Draft) -> Iterator[RevisionChange]:
    were, are = _named(before), _named(after)
    for name in dict.fromkeys((*were, *are)):
        was, now = were.get(name), are.get(name)
        if was != now:
            words = (was or now or before.lines[0]).description
            yield RevisionChange(what=words, before=_in_words(was), after=_in_words(now))


def _named(draft: Draft) -> dict[str, DraftLine]:
    return {line.key or f"line {number}": line for number, line in enumerate(draft.lines, 1)}


def _in_words(line: DraftLine | None) -> str:
    if line is None:
        return say("not there")
    words = say(
        "{quantity} {unit} at {price}, tax {code}",
        quantity=f"{line.quantity:f}",
        unit=line.unit,
        price=f"{line.unit_price:f}",
        code=line.tax_code,
    )
    return say("{line}, the customer's own", line=words) if line.own_part else words


def _fields(before: Draft, after: Draft) -> Iterator[RevisionChange]:
    for name in Draft.model_fields:
        was, now = getattr(before, name), getattr(after, name)
        if name != "lines" and was != now:
            yield RevisionChange(what=name.replace("_", " "), before=str(was), after=str(now))
