"""The page of one entry: every value and where it came from, and what points at it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from catalogue.calc.outlined import in_short, outline
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.habits import habit_in_words, key_in_english
from catalogue.calc.rows.kinds import Row
from catalogue.calc.said import say
from catalogue.calc.tier_reading import read_tier
from catalogue.forms.cards import CARDS
from catalogue.models import Change, OwnValue
from catalogue.models.choices import KINDS
from catalogue.queries import EmptyCatalogueError, current_rows, engine_catalogue, engine_type_choices
from catalogue.queries.lives import changes_standing_on
from catalogue.queries.shapes import SHAPES
from catalogue.views.access import may_change
from catalogue.views.also import also
from catalogue.views.sheets import SHEETS
from catalogue.views.shown import Teller, labels

RowsNow = Callable[[], CatalogueRows]

MOST_CHANGES = 50
"""The latest changes by hand that a page shows."""


def entry(request: HttpRequest, kind: str, code: str) -> HttpResponse:
    """One entry in full; a tier reads as sentences first."""
    rows, row = found_or_404(kind, code)
    owned = {own.field: own for own in OwnValue.objects.filter(kind=kind, entry=code).select_related("by")}
    teller = Teller(rows, row.model_dump(), owned)
    context: dict[str, Any] = {
        "sheet": SHEETS[kind],
        "sheets": SHEETS.values(),
        "code": code,
        "name": name_of(row, code),
        "sections": teller.told(CARDS[kind]),
        "also": also(kind, code, rows),
        "changes": _changes(kind, code, labels(CARDS[kind])),
        "owner": may_change(request),
        "may_change": kind != "policies",
    }
    if kind == "tiers":
        return render(request, "catalogue/tier.html", {**context, **_tier(request, code)})
    if kind == "components":
        context["approved"] = changes_standing_on(code)
    if kind == "policies":
        context["policy"] = _habit(rows, row.model_dump()["value"])
        context["currency"] = row.model_dump()["currency"]
    if kind == "limits":
        context["from_manual"] = row.model_dump()["from_manual"]
    return render(request, "catalogue/entry.html", context)


def found_or_404(kind: str, code: str, rows_now: RowsNow = current_rows) -> tuple[CatalogueRows, Row]:
    """The catalogue's rows and the one that is asked for."""
    try:
        rows = rows_now()
    except EmptyCatalogueError as nothing:
        raise Http404(str(nothing)) from None
    shape = SHAPES[kind]
    row = next((row for row in getattr(rows, kind) if shape.code_of(row) == code), None)
    if row is None:
        raise Http404(say("There is no {code} among the {many}.", code=repr(code), many=KINDS[kind]))
    return rows, row


def name_of(row: Row, code: str) -> str:
    """What an entry is called at the head of its page."""
    for field in ("name", "title", "quantity", "statement"):
        if words := getattr(row, field, ""):
            return say(str(words))
    return say(key_in_english(code))


def _habit(rows: CatalogueRows, value: Any) -> list[tuple[str, str]]:
    """A habit of the trade in rows, its sources by the titles of their pages."""
    titles = {source.code: source.title for source in rows.sources}
    names = {row.code: row.name for row in rows.engine_types} | {row.code: row.name for row in rows.tiers}
    return outline(habit_in_words(value, names, titles))


def _changes(kind: str, code: str, named: dict[str, str]) -> list[dict[str, Any]]:
    found: QuerySet[Change] = Change.objects.filter(kind=kind, entry=code).select_related("by")
    return [
        {
            "at": change.at,
            "by": (change.by.get_full_name() or change.by.get_username()) if change.by else say("a load"),
            "what": named.get(change.field, change.field.replace("_", " ")),
            "was": in_short(change.was),
            "became": in_short(change.became),
        }
        for change in found.order_by("-version", "field")[:MOST_CHANGES]
    ]


def _tier(request: HttpRequest, code: str) -> dict[str, Any]:
    """The tier as it reads on the engine type asked for, else on the first."""
    types = engine_type_choices()
    asked = request.GET.get("type", "")
    chosen = asked if asked in dict(types) else types[0][0]
    catalogue = engine_catalogue(chosen)
    left_out = next(row for row in current_rows().tiers if row.code == code).left_out_unless_opened
    note = left_out.note if left_out else ""
    return {
        "types": types,
        "chosen": chosen,
        "chosen_name": dict(types)[chosen],
        "tier": catalogue.tiers[code],
        "reading": read_tier(catalogue, code),
        "left_out": say(note) if note and catalogue.tiers[code].left_out_unless_opened else "",
    }
