"""Typed fields whose fault says what is wrong, the value, and what is allowed."""

from __future__ import annotations

from datetime import date
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING, Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, say_figure
from catalogue.calc.typed_figure import decimal_mark, two_ways
from quotes.forms.fields import NUL, CardField, figure, figure_shown, quoted

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise


def plain(value: Decimal) -> str:
    """A figure without needless noughts or exponent.

    >>> plain(Decimal("6.5000")), plain(Decimal("1E+2"))
    ('6.5', '100')
    """
    return f"{value.normalize():f}" if value else "0"


class Line(forms.CharField):
    """A line or a text that is kept as it was typed."""

    def __init__(self, label: StrOrPromise, most: int, **options: Any) -> None:
        self.most = most
        rows = options.pop("rows", 0)
        widget = forms.Textarea(attrs={"rows": rows}) if rows else forms.TextInput()
        super().__init__(label=label, required=options.pop("required", False), widget=widget, **options)
        # The base class's own checks neither name the value nor what is allowed.
        self.validators = []
        self.error_messages["required"] = _("Nothing is given.")

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        if NUL in text:
            raise ValidationError(
                say("{typed} holds a character that can't be kept: type it again.", typed=quoted(text))
            )
        if len(text) > self.most:
            raise ValidationError(
                say(
                    "{typed} has {count} characters: at most {most} are kept.",
                    typed=quoted(text),
                    count=say_figure(len(text), 0),
                    most=say_figure(self.most, 0),
                )
            )
        return text


class Figure(forms.CharField):
    """A number within limits, both included, with at most `places` decimals; thousands marks are read."""

    def __init__(
        self,
        label: StrOrPromise,
        least: str,
        most: str,
        places: int = 2,
        *,
        unit: StrOrPromise = "",
        **options: Any,
    ) -> None:
        self.least, self.most, self.places, self.unit = Decimal(least), Decimal(most), places, unit
        super().__init__(label=label, required=options.pop("required", True), **options)
        self.validators = []
        self.widget.attrs.update({"inputmode": "decimal", "autocomplete": "off", "class": "figure"})

    @property
    def allowed(self) -> str:
        least, most = shown(self.least), shown(self.most)
        if not self.places:
            return say("a number from {least} to {most}, whole", least=least, most=most)
        return say(
            "a number from {least} to {most}, with at most {places} decimals",
            least=least,
            most=most,
            places=self.places,
        )

    def not_allowed(self, typed: object) -> ValidationError:
        return ValidationError(say("{typed} is not {allowed}.", typed=quoted(typed), allowed=self.allowed))

    def validate(self, value: Any) -> None:
        if self.required and value in self.empty_values:
            raise ValidationError(say("Nothing is given: {allowed} is needed.", allowed=self.allowed))

    def prepare_value(self, value: Any) -> Any:
        return shown(value) if isinstance(value, Decimal) else value

    def read(self, typed: str) -> str:
        return figure(typed)

    def two_ways(self, typed: str) -> str:
        return two_ways(typed, decimal_mark())

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        if not text:
            return None
        if ambiguous := self.two_ways(text):
            raise ValidationError(ambiguous)
        try:
            number = Decimal(self.read(text))
        except InvalidOperation:
            raise self.not_allowed(text) from None
        if not number.is_finite() or not self.least <= number <= self.most:
            raise self.not_allowed(text)
        exponent = number.normalize().as_tuple().exponent
        if isinstance(exponent, int) and -exponent > self.places:
            raise self.not_allowed(text)
        return number


class Share(Figure):
    """A share between 0 and 1 that is typed in per cent."""

    def __init__(self, label: StrOrPromise, least: str, most: str, places: int = 2, **options: Any) -> None:
        super().__init__(label, least, most, places, unit=_("per cent"), **options)

    def prepare_value(self, value: Any) -> Any:
        return shown(value * 100) if isinstance(value, Decimal) else value

    def clean(self, value: Any) -> Any:
        number = super().clean(value)
        return None if number is None else number / 100


class Day(forms.DateField):
    """A date."""

    def __init__(self, label: StrOrPromise, **options: Any) -> None:
        widget = forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
        super().__init__(label=label, widget=widget, input_formats=["%Y-%m-%d", "%d.%m.%Y"], **options)

    def clean(self, value: Any) -> Any:
        try:
            return super().clean(value)
        except ValidationError:
            if not value:
                raise ValidationError(say("Nothing is given: a day is needed.")) from None
            raise ValidationError(
                say("{typed} is not a day, such as 2026-12-24.", typed=quoted(value))
            ) from None


class NotLater(Day):
    """A day that has come; `today` is given by the form."""

    today: date | None = None

    def clean(self, value: Any) -> Any:
        day = super().clean(value)
        if day and self.today and day > self.today:
            raise ValidationError(
                say(
                    "{value} has not come yet: today, {today}, or earlier.",
                    value=quoted(value),
                    today=self.today,
                )
            )
        return day


def as_of(form: forms.BaseForm, today: date) -> None:
    """Tell the day of a form, `on`, which day is today."""
    day = form.fields["on"]
    assert isinstance(day, NotLater)
    day.today = today


class Choice(forms.ChoiceField):
    """One of a list; a stranger is named together with the list."""

    def clean(self, value: Any) -> Any:
        try:
            return super().clean(value)
        except ValidationError:
            offered = [str(pair[0]) for pair in list(self.choices) if pair[0]]  # type: ignore[arg-type]
            raise ValidationError(
                say("{typed} is not one of: {offered}.", typed=quoted(value), offered=", ".join(offered))
            ) from None


class Picked(Choice):
    """One of a list that begins with nothing picked."""

    def clean(self, value: Any) -> Any:
        if not value:
            raise ValidationError(say("Nothing is picked: choose one of the list."))
        return super().clean(value)


def shown(value: Decimal) -> str:
    """The same as the page's language writes it."""
    return figure_shown(plain(value))


class SettingsForm(forms.Form):
    """A form whose cells know where their fault and their note stand."""

    bound_field_class = CardField
    use_required_attribute = False

    def __init__(self, *args: Any, **options: Any) -> None:
        options["label_suffix"] = ""
        super().__init__(*args, **options)
