"""Handing in a supplier's price list, and saying how it is read."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, get_args

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.price_list.reading import NEEDED, Column, Reading
from catalogue.calc.said import say, say_figure
from catalogue.calc.typed_figure import typed_number
from catalogue.models import Supplier
from quotes.forms.fields import quoted
from quotes.forms.figures import Choice, Figure, SettingsForm
from quotes.forms.price_lists import Currency
from quotes.forms.upload import UploadForm
from quotes.imports.bank.charset import CHARSETS
from quotes.imports.price_list.delimited import SEPARATORS
from quotes.imports.price_list.limits import MOST_BYTES, MOST_COLUMNS, MOST_LINES
from quotes.imports.price_list.row_values import NAMES
from quotes.imports.price_list.sample import Suggested

MARKS = ((".", _("a point")), (",", _("a comma")))
HEAD_LINES = (("1", _("one line")), ("2", _("two lines")), ("3", _("three lines")))
MOST_UNITS = 30_000
LONGEST_SHEET = 100
"""A workbook's own limit is 31."""


class Named(forms.ChoiceField):
    """One of a list whose codes say nothing to a reader: what is allowed is told by name."""

    def clean(self, value: Any) -> Any:
        try:
            return super().clean(value)
        except ValidationError:
            offered = ", ".join(str(label) for code, label in list(self.choices) if code)  # type: ignore[arg-type]
            if not value:
                raise ValidationError(
                    say("Nothing is chosen. There are: {offered}.", offered=offered)
                ) from None
            raise ValidationError(
                say("{typed} is not one of: {offered}.", typed=quoted(value), offered=offered)
            ) from None


class InColumn(Named):
    """A column of the file. One that was chosen before the file was read otherwise may be in it no more."""

    def clean(self, value: Any) -> Any:
        if str(value).isdecimal() and not self.valid_value(value):
            raise ValidationError(
                say("Read so, the file has no column {number}. Choose again.", number=int(value) + 1)
            )
        return super().clean(value)


class PriceListFileForm(UploadForm):
    """Whose list it is, and the file."""

    most_bytes = MOST_BYTES
    supplier = Named(label=_("Supplier"))
    field_order = ("supplier", "file")

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        supplier = self.fields["supplier"]
        assert isinstance(supplier, forms.ChoiceField)
        rows = Supplier.objects.filter(kind="parts").order_by("name").values_list("code", "name")
        supplier.choices = [("", say("choose")), *((code, say(name)) for code, name in rows)]
        self.fields["file"].label = _("Price list")
        self.fields["file"].help_text = say(
            "An XLSX workbook or a CSV file of at most {most} MB, {lines} lines and {columns} columns. "
            "Formulas are read as the values last reckoned; nothing that a file links to is fetched.",
            most=say_figure(MOST_BYTES // 1_000_000, 0),
            lines=say_figure(MOST_LINES, 0),
            columns=MOST_COLUMNS,
        )


class ReadingForm(SettingsForm):
    """Which column is what, and how the file is written."""

    sheet = Choice(label=_("Sheet"), required=False)
    head_line = Figure(
        _("Line that names the columns"), "0", "1000", 0, required=False, help_text=_("0 where none does.")
    )
    head_lines = Choice(
        label=_("Heads stand over"),
        choices=HEAD_LINES,
    )
    decimal_mark = Choice(label=_("Decimals stand after"), required=False, choices=MARKS)
    separator = Choice(label=_("Columns are parted by"), required=False)
    charset = Choice(label=_("Character set"), required=False)
    list_currency = Currency(
        _("Prices are in"), 20, help_text=_("Three letters; empty is what the supplier's lists are in.")
    )
    prices_for = Figure(
        _("Prices are for"), "1", str(MOST_UNITS), 0, required=False, unit=_("pieces"),
        help_text=_("Where no column says so."),
    )  # fmt: skip
    priced_by_pack = forms.BooleanField(label=_("Prices are for a whole pack"), required=False)

    def __init__(self, suggested: Suggested, data: Mapping[str, Any] | None = None) -> None:
        super().__init__(data, initial=_typed(suggested.reading))
        places = [(str(place), _called(suggested, place)) for place in range(suggested.width)]
        for column, name in NAMES.items():
            nothing = say("choose") if column in NEEDED else say("not in the file")
            self.fields[f"in_{column}"] = InColumn(
                label=_(name), required=column in NEEDED, choices=[("", nothing), *places]
            )
        self._offer("sheet", [(name, name) for name in suggested.sheets])
        text = not suggested.sheets
        self._offer("separator", [(mark, say(name)) for mark, name in SEPARATORS.items()] if text else [])
        self._offer("charset", [(code, say(name)) for code, name in CHARSETS.items()] if text else [])

    def _offer(self, name: str, choices: list[tuple[str, str]]) -> None:
        """A choice between two and more; what this kind of file does not have is not asked for."""
        field = self.fields[name]
        assert isinstance(field, forms.ChoiceField)
        field.choices = choices or [("", "")]
        if len(choices) < 2:
            field.widget = forms.HiddenInput()

    @property
    def columns(self) -> Iterable[forms.BoundField]:
        return [self[f"in_{column}"] for column in NAMES]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        chosen: dict[str, Column] = {}
        for column in NAMES:
            place = data.get(f"in_{column}", "")
            if place and place in chosen:
                first = say(NAMES[chosen[place]])
                self.add_error(f"in_{column}", say("The same column is chosen for “{name}”.", name=first))
            elif place:
                chosen[place] = column
        return data

    def value(self) -> Reading:
        """What was chosen; the heads are those of the file."""
        data = self.cleaned_data
        columns = {column: int(place) for column in NAMES if (place := data.get(f"in_{column}"))}
        return Reading(
            sheet=data["sheet"],
            charset=data["charset"],
            separator=data["separator"],
            decimal_mark=data["decimal_mark"],
            head_line=int(data["head_line"] or 0),
            head_lines=int(data["head_lines"]),
            columns=columns,
            currency=data["list_currency"],
            priced_for=int(data["prices_for"] or 1),
            priced_by_pack=data["priced_by_pack"],
        )


def chosen_so_far(data: Mapping[str, Any]) -> Reading:
    """What was sent, as far as it can be meant: enough to show the file by it, whatever else is wrong."""
    lines = str(data.get("head_line", "")).strip()
    charset, separator, sheet = (data.get(name, "") for name in ("charset", "separator", "sheet"))
    mark = data.get("decimal_mark", "")
    head_lines = data.get("head_lines", "1")
    places = {column: data.get(f"in_{column}", "") for column in NAMES}
    return Reading(
        sheet=sheet if sheet.isprintable() and len(sheet) <= LONGEST_SHEET else "",
        charset=charset if charset in CHARSETS else "",
        separator=separator if separator in SEPARATORS else "",
        decimal_mark=mark if mark in (".", ",") else "",
        head_line=typed_number(lines, digits=4) or 0,
        head_lines=int(head_lines) if head_lines in ("1", "2", "3") else 1,
        columns={column: int(place) for column, place in places.items() if _is_place(place)},
    )


def _is_place(typed: str) -> bool:
    place = typed_number(typed, digits=3)
    return place is not None and place < MOST_COLUMNS


def _called(suggested: Suggested, place: int) -> str:
    head = suggested.heads[place] if place < len(suggested.heads) else ""
    return head or say("Column {number}", number=place + 1)


def _typed(reading: Reading) -> dict[str, Any]:
    """A reading as the form shows it."""
    return {
        "sheet": reading.sheet,
        "head_line": str(reading.head_line),
        "head_lines": str(reading.head_lines),
        "decimal_mark": reading.decimal_mark,
        "separator": reading.separator,
        "charset": reading.charset,
        "list_currency": reading.currency,
        "prices_for": str(reading.priced_for),
        "priced_by_pack": reading.priced_by_pack,
        **{f"in_{column}": str(place) for column, place in reading.columns.items()},
    }


assert set(NAMES) == set(get_args(Column))
