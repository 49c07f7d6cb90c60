"""A supplier's bill as it is typed: its head, and its lines over builds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext_lazy as _

from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say
from quotes.forms.fields import quoted
from quotes.forms.figures import Choice, Day, Figure, Line, SettingsForm, shown
from quotes.forms.settings_rows import Row, Rows, rows_of
from quotes.models import Acceptance, BillLineKind, PaymentMethod
from quotes.queries.books.bills import accepted_builds
from quotes.queries.books.costs import FOR_A_BUILD

LARGEST = "9999999"
MORE = 6
"""So many rows are added by one press."""


@dataclass(frozen=True, slots=True)
class LineTyped:
    """One line as it was typed, its build found."""

    kind: str
    description: str
    net: Decimal
    build: Acceptance | None


class BillHead(SettingsForm):
    """Whose bill, its number and days, and its sums as they are printed on it."""

    supplier = Line(_("Supplier"), 120, required=True)
    supplier_number = Line(_("Number on the bill"), 60, required=True)
    on = Day(_("Date on the bill"))
    due_on = Day(_("To be paid by"), required=False)
    tax = Figure(_("Tax on the bill"), f"-{LARGEST}", LARGEST, 3, help_text=_("0 where it shows none."))
    gross = Figure(_("Sum to pay, with tax"), f"-{LARGEST}", LARGEST, 3, help_text=_("As printed: checked."))
    note = Line(_("Note"), 300)

    def __init__(self, *args: Any, unit: str = "", decimals: int = 2, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["supplier"].widget.attrs["list"] = "suppliers"
        for name in ("tax", "gross"):
            figure_in(self, name, unit, decimals)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        on, due = data.get("on"), data.get("due_on")
        if on and due and due < on:
            self.add_error(
                "due_on",
                say("“{due}” is before the bill's own date, {on}: that day or later.", due=due, on=on),
            )
        return data


class BillLineRow(Row):
    """One line: what sort of thing, for which build, before tax."""

    kind = Choice(label=_("What for"), choices=BillLineKind.choices)
    description = Line(_("In words"), 200)
    build = Line(_("Build, by its quote"), 40)
    net = Figure(_("Before tax"), f"-{LARGEST}", LARGEST, 3, required=False)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["build"].widget.attrs["list"] = "builds"

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not data.get("description") and "description" not in self.errors:
            self.add_error("description", say("Nothing is given: what was bought, in a few words."))
        if data.get("net") is None and "net" not in self.errors:
            allowed = self.fields["net"].allowed  # type: ignore[attr-defined]
            self.add_error("net", say("Nothing is given: {allowed} is needed.", allowed=allowed))
        return data


BillLineRows: type[Rows] = rows_of(BillLineRow, "")


class BillForm:
    """Head and lines together."""

    def __init__(
        self,
        data: Mapping[str, Any] | None = None,
        *,
        unit: str,
        decimals: int,
        supplier: str = "",
        first: Sequence[dict[str, Any]] = (),
    ) -> None:
        """`supplier` and the `first` lines stand in it before anything is typed."""
        self.decimals = decimals
        begun = {"supplier": supplier} if supplier else None
        self.head = BillHead(data, prefix="bill", unit=unit, decimals=decimals, initial=begun)
        blank: list[dict[str, Any]] = [*first, *({} for _ in range(max(MORE - len(first), 1)))]
        self.lines = BillLineRows(data, prefix="line", initial=None if data else blank)
        for row in self.lines:
            figure_in(row, "net", unit, decimals)

    def is_valid(self) -> bool:
        sound = [self.head.is_valid(), self.lines.is_valid()]
        return all(sound) and self._builds_known() and self._sums_agree()

    def _builds_known(self) -> bool:
        rows = self.lines.standing()
        if not rows:
            self.head.add_error(None, say("Nothing stands in the lines: a bill has at least one."))
            return False
        known = accepted_builds(row.cleaned_data["build"] for row in rows if row.cleaned_data["build"])
        sound = [self._line(row, known) for row in rows]  # all of them, so that every fault shows
        return all(sound)

    def _line(self, row: BillLineRow, known: Mapping[str, Acceptance]) -> bool:
        typed, kind = row.cleaned_data["build"].strip(), row.cleaned_data["kind"]
        found = known.get(typed.upper())
        if typed and not found:
            row.add_error(
                "build", say("{value} is no accepted quote: its number, or nothing.", value=quoted(typed))
            )
        elif found and kind not in FOR_A_BUILD:
            label = BillLineKind(kind).label
            row.add_error(
                "build",
                say(
                    "{value} can't stand here: {label} belong to no build.", value=quoted(typed), label=label
                ),
            )
        row.cleaned_data["found"] = found
        return not row.errors

    def _sums_agree(self) -> bool:
        """The three sums on the bill add up, or the slip is shown where it can be mended."""
        net = sum((row.cleaned_data["net"] for row in self.lines.standing()), ZERO)
        tax, gross = self.head.cleaned_data["tax"], self.head.cleaned_data["gross"]
        if net + tax == gross:
            return True
        apart = shown(round_half_up(gross - net - tax, self.decimals))
        self.head.add_error(
            "gross",
            say(
                "“{gross}” is not what the lines, {net}, and the tax, {tax}, come to: {together}. They "
                "are {apart} apart.",
                gross=shown(gross),
                net=shown(net),
                tax=shown(tax),
                together=shown(net + tax),
                apart=apart,
            ),
        )
        return False

    def value(self) -> list[LineTyped]:
        return [
            LineTyped(data["kind"], data["description"], data["net"], data["found"])
            for data in (row.cleaned_data for row in self.lines.standing())
        ]


class PayBill(SettingsForm):
    """When and how a bill was paid."""

    on = Day(_("Paid on"))
    method = Choice(label=_("How"), choices=PaymentMethod.choices, initial=PaymentMethod.TRANSFER)


class ReverseBill(SettingsForm):
    """On which day a bill is taken back."""

    on = Day(_("Dated"))
    note = Line(_("Why"), 300, required=True)


def figure_in(form: Any, name: str, unit: str, decimals: int) -> None:
    """Give a figure the workshop's currency and its decimals."""
    field = form.fields[name]
    field.unit, field.places = unit, decimals
