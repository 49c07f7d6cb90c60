"""A checked price list in plain lines, for a command."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.calc.price_list.shown import written
from catalogue.models import ListState, PriceList
from quotes.calc.prices.effect import Effect, MarginMoves

SHOWN = 20


def in_words(row: PriceList) -> str:
    """What a list does, in two lines."""
    counts = row.counts
    kinds = ("new", "dearer", "cheaper", "unchanged", "superseded")
    said = ", ".join(f"{counts[kind]:,} {kind}" for kind in kinds)
    held = counts["held"] - counts["yes"]
    waits = f"; {held:,} held for the owner's yes and left as they stand" if held else ""
    lines = (
        f"{counts['lines']:,} lines: {said}, {counts['refused']:,} refused; {counts['gone']:,} gone{waits}."
    )
    return f"{lines}\n{_state(row)}"


def _state(row: PriceList) -> str:
    if row.state == ListState.IN_FORCE:
        return f"In force from {row.in_force_from}."
    if row.state == ListState.DUE:
        return f"Taken in: comes into force on {row.in_force_from}."
    if written(row.counts):
        return "Not taken in."
    if row.counts["held"]:
        return "Not taken in: all that moves is held for the owner's yes."
    return "Not taken in: everything in it that could be read stands already."


def effect_in_words(effect: Effect) -> Iterator[str]:
    """Whose margin moves, the most first."""
    yield from _margins("Open quotes", effect.quotes)
    yield from _margins("Builds with parts to order", effect.builds)
    for draft in effect.drafts:
        sums = ", ".join(f"{one.option} {one.before} to {one.after}" for one in draft.sums)
        yield f"  {draft.title} ({draft.customer}): {sums}"


def _margins(title: str, rows: tuple[MarginMoves, ...]) -> Iterator[str]:
    if rows:
        yield f"{title} whose margin moves: {len(rows)}"
    for row in rows[:SHOWN]:
        yield f"  {row.title} ({row.customer}), {row.what}: {row.before} to {row.after} ({row.by:+})"
