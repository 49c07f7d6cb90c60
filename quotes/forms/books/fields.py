"""Fields of the money forms: who pays, a sum in the workshop's currency, a kind of line, a tax code."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, cast

from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.forms.fields import NUL, quoted
from quotes.forms.figures import Choice, Figure, Line, SettingsForm
from quotes.models import Customer, Workshop
from quotes.queries.books.payers import NAMED, payer_words, payers_found
from quotes.queries.workshop import taxability

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

LARGEST = "9999999"

LINE_KINDS: list[tuple[str, StrOrPromise]] = [
    ("labour", _("work")),
    ("part", _("part")),
    ("machine_work", _("machine work sent out")),
    ("consumables", _("consumables")),
    ("core", _("core charge")),
    ("freight", _("freight")),
    ("storage", _("storage")),
    ("other", _("other")),
]
"""What a line that is written by hand may be for."""
KIND_WORDS: dict[str, StrOrPromise] = {
    **dict(LINE_KINDS),
    "discount": _("discount"),
    "interest": _("interest"),
    "deposit": _("deposit"),
}


class Payer(Line):
    """A customer, found by name or telephone number; the list beside it offers them."""

    def __init__(self, label: StrOrPromise = "", **options: Any) -> None:
        super().__init__(label, 250, **options)
        self.widget.attrs.update({"list": "payers", "autocomplete": "off"})
        self.error_messages["required"] = _("Nothing is given: type a name or a telephone number.")

    def prepare_value(self, value: Any) -> Any:
        return payer_words(value) if isinstance(value, Customer) else value

    def clean(self, value: Any) -> Any:
        typed = super().clean(value)
        if not typed or NUL in typed:
            return None
        found = payers_found(typed)
        if not found:
            raise ValidationError(
                say("{value} is nobody in our book: pick one of the list.", value=quoted(typed))
            )
        if len(found) > 1:
            names = "; ".join(payer_words(row) for row in found[:NAMED])
            names = say("{names} or another", names=names) if len(found) > NAMED else names
            raise ValidationError(
                say(
                    "{value} may be {names}: type the telephone number too.", value=quoted(typed), names=names
                )
            )
        return found[0]


class Coins(Figure):
    """A sum of money; its decimals and its currency are given by `coins_of`."""

    def __init__(self, label: StrOrPromise, least: str = "0", most: str = LARGEST, **options: Any) -> None:
        super().__init__(label, least, most, 3, **options)


class Amount(Coins):
    """A sum above nought."""

    @property
    def allowed(self) -> str:
        if not self.places:
            return say("a whole sum above 0")
        return say("a sum above 0, with at most {places} decimals", places=self.places)

    def clean(self, value: Any) -> Any:
        amount = super().clean(value)
        if amount is not None and amount <= 0:
            raise ValidationError(say("{value} is not {allowed}.", value=quoted(value), allowed=self.allowed))
        return amount


def coins_of(form: SettingsForm, currency: str, decimals: int) -> None:
    """Give every sum of a form the workshop's currency and its decimals."""
    for field in form.fields.values():
        if isinstance(field, Coins):
            field.places, field.unit = decimals, currency
            needed = say("Nothing is given: {allowed} is needed.", allowed=field.allowed)
            field.error_messages["required"] = needed


def usual_code() -> str:
    """The tax code of parts, which most lines that are written by hand bear."""
    return taxability(Workshop.objects.get_or_default())["part"]


def offer(form: SettingsForm, name: str, choices: Sequence[tuple[str, StrOrPromise]]) -> None:
    """Put the choices of today into a select."""
    cast(Choice, form.fields[name]).choices = list(choices)
