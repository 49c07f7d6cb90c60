"""What else the catalogue says of an entry: everything that points at it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from django.urls import reverse

from catalogue.calc.numbers import said_figure
from catalogue.calc.reference_list import references
from catalogue.calc.resolve_work import hours
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.kinds import Row
from catalogue.calc.said import say, to_say
from catalogue.calc.settled import settle
from catalogue.calc.sources import cited
from catalogue.queries.listed_offers import listed_as
from catalogue.views.shown import Piece, url_of

Block = tuple[str, list[Piece]]
WORDS = {
    "parts": to_say("Parts"),
    "components": to_say("Components"),
    "operations": to_say("Operations"),
    "machine_work": to_say("Machine work"),
    "tiers": to_say("Tiers"),
    "findings": to_say("Findings"),
    "events": to_say("Events"),
    "limits": to_say("Limits"),
}
MOST = 40
"""More than so many are better looked at in their list."""


def also(kind: str, code: str, rows: CatalogueRows) -> list[Block]:
    """Blocks of links under the values of an entry."""
    blocks = list(_special(kind, code, rows))
    if kind == "sources":
        return blocks
    found: dict[str, dict[str, Piece]] = {}
    for reference in references(rows):
        if reference.target == kind and code in reference.codes and reference.entry != code:
            names = found.setdefault(reference.kind, {})
            names.setdefault(reference.entry, Piece("", url_of(reference.kind, reference.entry)))
    for of_kind, pieces in found.items():
        named = _names(of_kind, rows)
        links = [Piece(named[entry], piece.url) for entry, piece in pieces.items()]
        blocks.append((say(WORDS[of_kind]), _short(of_kind, links, kind, code)))
    return blocks


def _names(kind: str, rows: CatalogueRows) -> dict[str, str]:
    if kind == "parts":
        types = {row.code: row.name for row in rows.engine_types}
        return {row.number: f"{row.name}, {types[row.engine_type]}" for row in rows.parts}
    if kind == "limits":
        return {row.code: say(row.quantity) for row in rows.limits}
    return {row.code: row.name for row in getattr(rows, kind)}


def _short(of_kind: str, links: list[Piece], kind: str, code: str) -> list[Piece]:
    if len(links) <= MOST:
        return links
    narrowed = {"components": "component", "engine_types": "engine_type", "suppliers": "supplier"}.get(kind)
    url = reverse("catalogue:list", args=[of_kind])
    return [Piece(say("all {count}", count=len(links)), f"{url}?{narrowed}={code}" if narrowed else url)]


def _special(kind: str, code: str, rows: CatalogueRows) -> Iterator[Block]:
    told: dict[str, Callable[[str, CatalogueRows], Block]] = {
        "operations": _whole_hours,
        "engine_types": _what_it_has,
        "sources": _rests_on_it,
        "parts": _listed,
    }
    if kind in told:
        yield told[kind](code, rows)


def _listed(code: str, rows: CatalogueRows) -> Block:
    """What its suppliers list under its numbers, with every price that held."""
    part = next(part for part in rows.parts if part.number == code)
    return say("On price lists"), [
        Piece(
            say(
                "{supplier}, {number}, from {day}",
                supplier=one.supplier.name,
                number=one.number,
                day=f"{one.price_list.in_force_from:%Y-%m-%d}",
            ),
            reverse("listed-part", args=[one.pk]),
        )
        for one in listed_as(part)
    ]


def _whole_hours(code: str, rows: CatalogueRows) -> Block:
    row = next(row for row in rows.operations if row.code == code)
    found = [
        (kind, said_figure(hours(row, settle(rows, kind.code))))
        for kind in rows.engine_types
        if kind.code in row.hours
    ]
    return say("Whole hours"), [
        Piece(f"{kind.name}: {whole} h", url_of("engine_types", kind.code)) for kind, whole in found
    ]


def _what_it_has(code: str, rows: CatalogueRows) -> Block:
    settled = settle(rows, code)
    counted = (
        ("components", say("{count} components", count=len(settled.components)), ""),
        ("operations", say("{count} operations", count=len(settled.operations)), ""),
        ("machine_work", say("{count} kinds of machine work", count=len(settled.machine_work)), ""),
        ("parts", say("{count} parts", count=len(settled.priced)), f"?engine_type={code}"),
    )
    return say("What it has"), [
        Piece(words, reverse("catalogue:list", args=[kind]) + narrowed) for kind, words, narrowed in counted
    ]


def _rests_on_it(code: str, rows: CatalogueRows) -> Block:
    """Every entry in which the page is named."""
    pieces = []
    for kind in (*WORDS, "load_laws", "duties", "facts", "suppliers", "engine_types"):
        for row in getattr(rows, kind):
            if code in cited(_text_of(row)):
                entry = getattr(row, "code", "") or row.number
                named = (getattr(row, field, "") for field in ("name", "quantity", "statement"))
                pieces.append(
                    Piece(next((say(str(words)) for words in named if words), entry), url_of(kind, entry))
                )
    return say("Rests on it"), pieces


def _text_of(row: Row) -> str:
    return row.model_dump_json()
