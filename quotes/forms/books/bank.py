"""Handing in a bank's file, saying which column is what, and choosing which of its lines to take."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, say_figure
from catalogue.calc.typed_figure import typed_number
from quotes.calc.books.bank_lines import ColumnsChosen, DateOrder, DecimalMark, Reading
from quotes.forms.fields import quoted
from quotes.forms.figures import Choice, Figure, Line, SettingsForm
from quotes.imports.bank.charset import CHARSETS
from quotes.imports.bank.grid import SEPARATORS
from quotes.imports.cells import MOST_BYTES

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

NOT_THERE = ("", _("not in the file"))
FOUND_OUT = ("", _("found out"))


def _named(names: Mapping[str, str]) -> list[tuple[str, StrOrPromise]]:
    return [(code, _(name)) for code, name in names.items()]


class BankFileForm(SettingsForm):
    """One file. Its name says nothing: what it is, its bytes tell."""

    file = forms.FileField(
        label=_("Statement of the bank, as CSV"),
        allow_empty_file=True,
        error_messages={"required": _("Nothing was picked: a CSV file is needed.")},
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        most = say_figure(MOST_BYTES // 1000, 0)
        self.fields["file"].help_text = say(
            "Any columns, any character set, at most {most_kb} kB.", most_kb=most
        )

    def clean_file(self) -> UploadedFile[bytes]:
        """A file too large is refused before it is read."""
        file: UploadedFile[bytes] = self.cleaned_data["file"]
        if (file.size or 0) > MOST_BYTES:
            raise ValidationError(
                say(
                    "The file has {size} bytes: at most {most} are allowed.",
                    size=say_figure(file.size or 0, 0),
                    most=say_figure(MOST_BYTES, 0),
                )
            )
        return file


class ReadingForm(SettingsForm):
    """Which column is what, and how days and sums are written."""

    date = Choice(label=_("Day"))
    amount = Choice(label=_("Sum, with its sign"), required=False)
    money_in = Choice(label=_("or money in"), required=False)
    money_out = Choice(label=_("and money out"), required=False)
    payer = Choice(label=_("Who paid"), required=False)
    text = Choice(label=_("What for"), required=False)
    more_text = Choice(label=_("and more of it"), required=False)
    date_order = Choice(
        label=_("Days are written"),
        required=False,
        choices=[
            FOUND_OUT,
            ("ymd", _("year, month, day")),
            ("dmy", _("day, month, year")),
            ("mdy", _("month, day, year")),
        ],
    )
    decimal_mark = Choice(
        label=_("Decimals stand after"),
        required=False,
        choices=[FOUND_OUT, (".", _("a point")), (",", _("a comma"))],
    )
    head_line = Figure(
        _("Line that names the columns"), "0", "5000", 0, required=False, help_text=_("0 where none does.")
    )
    charset = Choice(label=_("Character set"), required=False, choices=[FOUND_OUT, *_named(CHARSETS)])
    separator = Choice(
        label=_("Columns are parted by"), required=False, choices=[FOUND_OUT, *_named(SEPARATORS)]
    )

    COLUMNS = ("date", "amount", "money_in", "money_out", "payer", "text", "more_text")

    def __init__(
        self, heads: Sequence[str], data: Mapping[str, Any] | None = None, reading: Reading | None = None
    ) -> None:
        super().__init__(data, initial=_typed(reading or Reading()))
        columns = [(str(place), head) for place, head in enumerate(heads)]
        for name in self.COLUMNS:
            field = self.fields[name]
            assert isinstance(field, forms.ChoiceField)
            field.choices = [("", say("choose")) if name == "date" else NOT_THERE, *columns]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not self.errors and (fault := self.columns().fault):
            self.add_error("amount", fault)
        return data

    def columns(self) -> ColumnsChosen:
        places = {name: _place(self.cleaned_data[name]) for name in self.COLUMNS}
        texts = tuple(place for place in (places["text"], places["more_text"]) if place is not None)
        return ColumnsChosen(
            date=cast(int, places["date"]),
            amount=places["amount"],
            money_in=places["money_in"],
            money_out=places["money_out"],
            payer=places["payer"],
            text=texts,
        )

    def value(self) -> Reading:
        data = self.cleaned_data
        line = data["head_line"]
        return Reading(
            charset=data["charset"],
            separator=data["separator"],
            decimal_mark=cast(DecimalMark, data["decimal_mark"]),
            date_order=cast(DateOrder, data["date_order"]),
            head_line=None if line is None else int(line),
            columns=self.columns(),
        )


def _place(typed: str) -> int | None:
    return int(typed) if typed else None


def _typed(reading: Reading) -> dict[str, Any]:
    """A reading as the form shows it."""
    told: dict[str, Any] = {
        "charset": reading.charset,
        "separator": reading.separator,
        "decimal_mark": reading.decimal_mark,
        "date_order": reading.date_order,
        "head_line": reading.head_line,
    }
    if columns := reading.columns:
        first, second = ([*columns.text, None, None])[:2]
        told |= {
            "date": columns.date,
            "amount": columns.amount,
            "money_in": columns.money_in,
            "money_out": columns.money_out,
            "payer": columns.payer,
            "text": first,
            "more_text": second,
        }
    return {name: "" if value is None else str(value) for name, value in told.items()}


class AsideForm(SettingsForm):
    """Why lines are put aside."""

    note = Line(_("Why they are no customer's payments"), 300, required=True)


def ticked(data: Mapping[str, Any], name: str) -> set[int]:
    """The numbers of the rows that are ticked under a name."""
    values = data.getlist(name) if hasattr(data, "getlist") else data.get(name, [])
    wrong = [value for value in values if typed_number(value) is None]
    if wrong:
        raise ValidationError(say("{value} is no line of the file.", value=quoted(wrong[0])))
    return {int(value) for value in values}
