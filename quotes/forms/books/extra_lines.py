"""Lines of extra work: each with its price and, where a supplier lists its part, of whom it is bought."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.calc.invoice.draft import DraftLine
from quotes.forms.books.fields import LINE_KINDS, Coins, offer
from quotes.forms.bought import bought_choices, bought_fault, filled_in, suppliers_of_parts
from quotes.forms.figures import Choice, Figure, Line
from quotes.forms.settings_rows import Row, Rows, rows_of
from quotes.models import Workshop
from quotes.queries.workshop import taxability

EXTRA_KINDS = LINE_KINDS[:4]
BOUGHT = ("supplier", "number", "cost")


class ExtraLineRow(Row):
    """One line of extra work."""

    kind = Choice(label=_("Kind"), choices=EXTRA_KINDS)
    description = Line(_("Line"), 200)
    quantity = Figure(_("Quantity"), "0.001", "99999", 3, required=False)
    unit = Line(_("Unit"), 40)
    unit_price = Coins(_("Each, before tax"), required=False)
    tax_code = Choice(label=_("Tax"), required=False)
    supplier = Choice(label=_("Bought of"), required=False)
    number = Line(_("Part number"), 64)
    cost = Coins(_("One costs us"), required=False)
    by_kind: Mapping[str, str]
    """The tax code that each kind of line bears where none is picked."""

    @property
    def is_bought(self) -> bool:
        """Whether anything says of whom it is bought."""
        return any(self[name].value() or self[name].errors for name in BOUGHT)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        for name in ("description", "quantity", "unit_price"):
            if data.get(name) in (None, "") and name not in self.errors:
                allowed = getattr(self.fields[name], "allowed", say("what it is, in a few words,"))
                self.add_error(name, say("Nothing is given: {allowed} is needed.", allowed=allowed))
        if not {"supplier", "number"} & self.errors.keys():
            self._refuse_bought(data)
        return data

    def _refuse_bought(self, data: dict[str, Any]) -> None:
        offered = dict(self.fields["supplier"].choices)  # type: ignore[attr-defined]
        if fault := bought_fault(data["supplier"], data["number"], offered):
            self.add_error(*fault)
        elif data["supplier"] and data.get("kind") != "part":
            self.add_error("kind", say("Only a part is bought of a supplier: make it a part, or name none."))

    def value(self) -> DraftLine:
        data = self.cleaned_data
        return DraftLine(
            kind=data["kind"],
            description=data["description"],
            quantity=data["quantity"],
            unit=data["unit"] or ("h" if data["kind"] == "labour" else "each"),
            unit_price=data["unit_price"],
            tax_code=data["tax_code"] or self.by_kind[data["kind"]],
            supplier=data["supplier"],
            number=data["number"],
            cost=data["cost"],
        )


ExtraLineRows: type[Rows] = rows_of(ExtraLineRow, "", extra=0)
HEAD, LINES = "extra", "extra-line"


def offer_taxes(rows: Rows, tax_codes: Sequence[tuple[str, str]]) -> None:
    """Work may be taxed otherwise than parts: the kind of the line says it, unless a hand does."""
    by_kind = taxability(Workshop.objects.get_or_default())
    for row in rows:
        row.by_kind = by_kind
        offer(row, "tax_code", [("", say("by its kind")), *tax_codes])


def offer_suppliers(rows: Rows) -> None:
    choices = bought_choices(suppliers_of_parts())
    for row in rows:
        row.fields["supplier"].choices = choices


@dataclass(frozen=True, slots=True)
class Begun:
    """What is typed of an offer while a part is looked up, as its form begins with it: nothing is judged."""

    head: Mapping[str, Any] = field(default_factory=dict)
    lines: tuple[dict[str, str], ...] = ()


def begun(posted: Any, told: Mapping[str, Decimal | str] | None = None) -> Begun:
    """What was typed; `told`, what a supplier lists, stands in the first blank line, else in a new one."""
    start = f"{HEAD}-"
    head = {name.removeprefix(start): posted[name] for name in posted if name.startswith(start)}
    rows = ExtraLineRows(posted, prefix=LINES)
    lines = [{name: str(row[name].data or "") for name in row.fields} for row in rows]
    if told:
        blank = next((at for at, row in enumerate(rows) if not row.has_changed()), len(lines))
        last = lines[blank] if blank < len(lines) else {"tax_code": lines[-1]["tax_code"]} if lines else {}
        lines[blank : blank + 1] = [filled_in(told, last)]
    return Begun(head | {"touches": posted.getlist(f"{start}touches")}, tuple(lines))
