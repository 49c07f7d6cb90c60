"""The lines of a draft document as they are typed: each keeps the line that it came from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

import pydantic
from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.parts import part_of
from quotes.forms.books.fields import KIND_WORDS, LINE_KINDS, Coins, coins_of, offer, usual_code
from quotes.forms.figures import Choice, Figure, Line, SettingsForm
from quotes.queries.books.draft_lines import Offered

MOST_LINES = 400
FOUR = "9999999"
NUL_IN_JSON = r"\u0000"


ASKED = {
    "inside": to_say("in"),
    "quantity": to_say("Quantity"),
    "unit_price": to_say("Each"),
    "tax_code": to_say("Tax"),
    "own_part": to_say("brought by the customer"),
}
"""What a cell without a label of its own is called."""


class LineRow(SettingsForm):
    """One line. What was accepted keeps its words and its tax; what is credited also its price."""

    inside = forms.BooleanField(label=_("in"), required=False)
    description = Line(_("Line"), 200, required=True)
    quantity = Figure(_("Quantity"), f"-{FOUR}", FOUR, 4)
    unit_price = Figure(_("Each"), "0", FOUR, 4)
    tax_code = Choice(label=_("Tax"))
    own_part = forms.BooleanField(label=_("brought by the customer"), required=False)

    def __init__(
        self,
        data: Mapping[str, Any] | None,
        offered: Offered,
        *,
        prefix: str,
        credit: bool,
        tax_codes: Sequence[tuple[str, str]],
    ) -> None:
        self.line, self.credit = offered.line, credit
        line = offered.line
        initial = {
            "inside": offered.inside,
            "description": line.description,
            "quantity": line.quantity,
            "unit_price": line.unit_price,
            "tax_code": line.tax_code,
            "own_part": line.own_part,
        }
        super().__init__(data, prefix=prefix, initial=initial)
        self._keep_fixed()
        self._name_and_offer(tax_codes)

    def _name_and_offer(self, tax_codes: Sequence[tuple[str, str]]) -> None:
        """Say of every cell which line it is of; offer the line its own tax code, gone or not."""
        for name, label in ASKED.items():
            if name in self.fields:
                self.fields[name].widget.attrs["aria-label"] = f"{say(label)}: {self.line.description}"
        if "tax_code" in self.fields:
            own = self.line.tax_code
            offer(self, "tax_code", [*tax_codes, *([] if own in dict(tax_codes) else [(own, own)])])

    def _keep_fixed(self) -> None:
        """Take out the fields of what is not to be changed on a line of this sort."""
        line = self.line
        fixed: set[str] = set()
        if line.key or self.credit:
            fixed |= {"description"}
        if self.credit or line.kind == "deposit" or (line.key and line.kind not in ("interest", "storage")):
            fixed.add("tax_code")
        if self.credit or line.kind in ("deposit", "discount"):
            fixed.add("unit_price")
        if line.kind in ("deposit", "discount") and not self.credit:
            fixed.add("quantity")
        if line.kind != "part" or self.credit:
            fixed.add("own_part")
        for name in fixed:
            del self.fields[name]

    @property
    def kind_words(self) -> str:
        return str(KIND_WORDS[self.line.kind])

    @property
    def held(self) -> str:
        """The line that it came from, as the page carries it along."""
        return self.line.model_dump_json()

    @property
    def is_inside(self) -> bool:
        if self.is_bound:
            return bool(self["inside"].data)
        return bool(self.initial["inside"])

    def value(self, decimals: int) -> DraftLine:
        """The line with what was typed; a part of one with allowances bears its share of them."""
        data = dict(self.cleaned_data)
        del data["inside"]
        line = self.line
        quantity = data.pop("quantity", line.quantity)
        if quantity != line.quantity and line.adjustments and line.quantity:
            line = part_of(line, quantity, decimals)
        return line.model_copy(update={"quantity": quantity, **data})


def rows_shown(
    offered: Sequence[Offered], *, credit: bool, tax_codes: Sequence[tuple[str, str]]
) -> list[LineRow]:
    """The rows as they stand."""
    return [
        LineRow(None, each, prefix=f"line-{place}", credit=credit, tax_codes=tax_codes)
        for place, each in enumerate(offered)
    ]


def rows_posted(
    data: Mapping[str, Any], *, credit: bool, tax_codes: Sequence[tuple[str, str]]
) -> list[LineRow] | None:
    """The rows as they were sent; None where the page came back without the lines that it was given."""
    try:
        count = min(int(data.get("lines", "")), MOST_LINES)
        held = [data.get(f"line-{place}-held", "") for place in range(count)]
        if any(NUL_IN_JSON in each for each in held):
            return None
        lines = [DraftLine.model_validate_json(each) for each in held]
    except (ValueError, pydantic.ValidationError):
        return None
    return [
        LineRow(data, Offered(line, True), prefix=f"line-{place}", credit=credit, tax_codes=tax_codes)
        for place, line in enumerate(lines)
    ]


class NewLine(SettingsForm):
    """A line that no acceptance asks for: freight, a core charge, storage, or anything else."""

    kind = Choice(label=_("Kind"), choices=LINE_KINDS[::-1])
    description = Line(_("Line"), 200)
    quantity = Figure(_("Quantity"), f"-{FOUR}", FOUR, 4, required=False)
    unit = Line(_("Unit"), 40)
    unit_price = Coins(_("Each, before tax"), required=False)
    tax_code = Choice(label=_("Tax"))

    def __init__(
        self,
        data: Mapping[str, Any] | None,
        *,
        currency: str,
        decimals: int,
        tax_codes: Sequence[tuple[str, str]],
    ) -> None:
        super().__init__(data, prefix="new", initial={"tax_code": usual_code()})
        coins_of(self, currency, decimals)
        offer(self, "tax_code", tax_codes)
        self.fields["unit"].widget.attrs["placeholder"] = say("each")

    @property
    def is_blank(self) -> bool:
        names = ("description", "quantity", "unit_price")
        return not any(str(self[name].data or "").strip() for name in names)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not data.get("description") and "description" not in self.errors:
            self.add_error("description", say("Nothing is given: what it is for, in a few words."))
        if data.get("unit_price") is None and "unit_price" not in self.errors:
            allowed = self.fields["unit_price"].allowed  # type: ignore[attr-defined]
            self.add_error("unit_price", say("Nothing is given: {allowed} is needed.", allowed=allowed))
        return data

    def value(self) -> DraftLine:
        data = self.cleaned_data
        return DraftLine(
            kind=data["kind"],
            description=data["description"],
            quantity=Decimal(1) if data["quantity"] is None else data["quantity"],
            unit=data["unit"] or "each",
            unit_price=data["unit_price"],
            tax_code=data["tax_code"],
        )


class Receipts(SettingsForm):
    """How much of each deposit that was taken by receipt is taken off. `held`: number to what is there."""

    def __init__(
        self,
        data: Mapping[str, Any] | None,
        held: Mapping[str, Decimal],
        taken: Mapping[str, Decimal],
        *,
        currency: str,
        decimals: int,
    ) -> None:
        super().__init__(data, prefix="receipt", initial={number: taken.get(number, ZERO) for number in held})
        self.held = dict(held)
        for number, most in held.items():
            self.fields[number] = Coins(
                say("Deposit {number}", number=number), "0", str(most), required=False
            )
        coins_of(self, currency, decimals)

    def value(self) -> dict[str, Decimal]:
        return {number: amount for number, amount in self.cleaned_data.items() if amount}
