"""Fields of the money forms: who pays, a sum in the workshop's currency, a kind of line, a tax code."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast

from django.core.exceptions import ValidationError

from quotes.forms.fields import NUL, quoted
from quotes.forms.figures import Choice, Figure, Line, SettingsForm
from quotes.models import Customer, Workshop
from quotes.queries.books.payers import NAMED, payer_words, payers_found
from quotes.queries.workshop import taxability

LARGEST = "9999999"

LINE_KINDS = [
    ("labour", "work"),
    ("part", "part"),
    ("machine_work", "machine work sent out"),
    ("consumables", "consumables"),
    ("core", "core charge"),
    ("freight", "freight"),
    ("storage", "storage"),
    ("other", "other"),
]
"""What a line that is written by hand may be for."""
KIND_WORDS = {**dict(LINE_KINDS), "discount": "discount", "interest": "interest", "deposit": "deposit"}


class Payer(Line):
    """A customer, found by name or telephone number; the list beside it offers them."""

    def __init__(self, label: str = "Who pays?", **options: Any) -> None:
        super().__init__(label, 250, **options)
        self.widget.attrs.update({"list": "payers", "autocomplete": "off"})
        self.error_messages["required"] = "Nothing is given: type a name or a telephone number."

    def prepare_value(self, value: Any) -> Any:
        return payer_words(value) if isinstance(value, Customer) else value

    def clean(self, value: Any) -> Any:
        typed = super().clean(value)
        if not typed or NUL in typed:
            return None
        found = payers_found(typed)
        if not found:
            raise ValidationError(f"{quoted(typed)} is nobody in our book: pick one of the list.")
        if len(found) > 1:
            more = " or another" if len(found) > NAMED else ""
            names = "; ".join(payer_words(row) for row in found[:NAMED])
            raise ValidationError(f"{quoted(typed)} may be {names}{more}: type the telephone number too.")
        return found[0]


class Coins(Figure):
    """A sum of money; its decimals and its currency are given by `coins_of`."""

    def __init__(self, label: str, least: str = "0", most: str = LARGEST, **options: Any) -> None:
        super().__init__(label, least, most, 3, **options)


class Amount(Coins):
    """A sum above nought."""

    @property
    def allowed(self) -> str:
        return f"a sum above 0, with at most {self.places} decimals" if self.places else "a whole sum above 0"

    def clean(self, value: Any) -> Any:
        amount = super().clean(value)
        if amount is not None and amount <= 0:
            raise ValidationError(f"{quoted(value)} is not {self.allowed}.")
        return amount


def coins_of(form: SettingsForm, currency: str, decimals: int) -> None:
    """Give every sum of a form the workshop's currency and its decimals."""
    for field in form.fields.values():
        if isinstance(field, Coins):
            field.places, field.unit = decimals, currency
            if field.error_messages.get("required", "").startswith("Nothing is given"):
                field.error_messages["required"] = f"Nothing is given: {field.allowed} is needed."


def usual_code() -> str:
    """The tax code of parts, which most lines that are written by hand bear."""
    return taxability(Workshop.objects.get_or_default())["part"]


def offer(form: SettingsForm, name: str, choices: Sequence[tuple[str, str]]) -> None:
    """Put the choices of today into a select."""
    cast(Choice, form.fields[name]).choices = list(choices)
