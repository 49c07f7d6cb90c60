"""Typed fields whose fault says what is wrong, the value, and what is allowed."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from quotes.forms.fields import NUL, Cell, figure, quoted


def plain(value: Decimal) -> str:
    """A figure without needless noughts or exponent.

    >>> plain(Decimal("6.5000")), plain(Decimal("1E+2"))
    ('6.5', '100')
    """
    return f"{value.normalize():f}" if value else "0"


class Line(forms.CharField):
    """A line or a text that is kept as it was typed."""

    def __init__(self, label: str, most: int, **options: Any) -> None:
        self.most = most
        rows = options.pop("rows", 0)
        widget = forms.Textarea(attrs={"rows": rows}) if rows else forms.TextInput()
        super().__init__(label=label, required=options.pop("required", False), widget=widget, **options)
        # The base class's own checks neither name the value nor what is allowed.
        self.validators = []
        self.error_messages["required"] = "Nothing is given."

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        if NUL in text:
            raise ValidationError(f"{quoted(text)} holds a character that can't be kept: type it again.")
        if len(text) > self.most:
            raise ValidationError(
                f"{quoted(text)} has {len(text):,} characters: at most {self.most:,} are kept."
            )
        return text


class Figure(forms.CharField):
    """A number within limits, both included, with at most `places` decimals; thousands marks are read."""

    def __init__(
        self, label: str, least: str, most: str, places: int = 2, *, unit: str = "", **options: Any
    ) -> None:
        self.least, self.most, self.places, self.unit = Decimal(least), Decimal(most), places, unit
        super().__init__(label=label, required=options.pop("required", True), **options)
        self.validators = []
        self.widget.attrs.update({"inputmode": "decimal", "autocomplete": "off", "class": "figure"})
        self.error_messages["required"] = f"Nothing is given: {self.allowed} is needed."

    @property
    def allowed(self) -> str:
        decimals = f", with at most {self.places} decimals" if self.places else ", whole"
        return f"a number from {plain(self.least)} to {plain(self.most)}{decimals}"

    def prepare_value(self, value: Any) -> Any:
        return plain(value) if isinstance(value, Decimal) else value

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        if not text:
            return None
        try:
            number = Decimal(figure(text))
        except InvalidOperation:
            raise ValidationError(f"{quoted(text)} is not {self.allowed}.") from None
        if not number.is_finite() or not self.least <= number <= self.most:
            raise ValidationError(f"{quoted(text)} is not {self.allowed}.")
        exponent = number.normalize().as_tuple().exponent
        if isinstance(exponent, int) and -exponent > self.places:
            raise ValidationError(f"{quoted(text)} is not {self.allowed}.")
        return number


class Share(Figure):
    """A share between 0 and 1 that is typed in per cent."""

    def __init__(self, label: str, least: str, most: str, places: int = 2, **options: Any) -> None:
        super().__init__(label, least, most, places, unit="per cent", **options)

    def prepare_value(self, value: Any) -> Any:
        return plain(value * 100) if isinstance(value, Decimal) else value

    def clean(self, value: Any) -> Any:
        number = super().clean(value)
        return None if number is None else number / 100


class Day(forms.DateField):
    """A date."""

    def __init__(self, label: str, **options: Any) -> None:
        widget = forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
        super().__init__(label=label, widget=widget, input_formats=["%Y-%m-%d"], **options)

    def clean(self, value: Any) -> Any:
        try:
            return super().clean(value)
        except ValidationError:
            if not value:
                raise ValidationError("Nothing is given: a day is needed.") from None
            raise ValidationError(f"{quoted(value)} is not a day, such as 2026-12-24.") from None


class Choice(forms.ChoiceField):
    """One of a list; a stranger is named together with the list."""

    def clean(self, value: Any) -> Any:
        try:
            return super().clean(value)
        except ValidationError:
            offered = [str(pair[0]) for pair in list(self.choices) if pair[0]]  # type: ignore[arg-type]
            raise ValidationError(f"{quoted(value)} is not one of: {', '.join(offered)}.") from None


class SettingsForm(forms.Form):
    """A form whose cells know where their fault and their note stand."""

    bound_field_class = Cell
    use_required_attribute = False

    def __init__(self, *args: Any, **options: Any) -> None:
        options["label_suffix"] = ""
        super().__init__(*args, **options)
