"""The form field of each sort of input."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalogue.calc.numbers import figure
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.said import say
from catalogue.calc.search_key import search_key
from catalogue.calc.typed_figure import decimal_mark, two_ways, typed_figure
from catalogue.forms.inputs import Choices, Input
from catalogue.models.choices import ONE_OF

SHORT, LONG = 200, 2000


class CodesField(forms.CharField):
    """Entries by code or name, with commas or new lines between."""

    widget = forms.Textarea({"rows": 2, "spellcheck": "false"})

    def __init__(self, kind: str, known: Mapping[str, str], **more: Any) -> None:
        self.kind, self.known = kind, known
        self.by_name = {search_key(name): code for code, name in known.items()}
        super().__init__(max_length=10 * LONG, **more)

    def to_python(self, value: Any) -> Any:
        """The codes, each once. ValidationError names each word that is none."""
        words = [word.strip() for word in str(value or "").replace("\n", ",").split(",")]
        found = [self._code(word) for word in words if word]
        return list(dict.fromkeys(found))

    def _code(self, word: str) -> str:
        if word in self.known:
            return word
        if code := self.by_name.get(search_key(word)):
            return code
        near = difflib.get_close_matches(word, self.known, n=1)
        refused = say("There is no {one} {code}.", one=ONE_OF[self.kind], code=repr(word[:40]))
        hint = " " + say("Did you mean {code}?", code=near[0]) if near else ""
        raise ValidationError(refused + hint)

    def prepare_value(self, value: Any) -> Any:
        return ", ".join(value) if isinstance(value, list | tuple) else value

    def validate(self, value: Any) -> None:
        """Nothing more: whether one is needed is the row's to say."""

    def run_validators(self, value: Any) -> None:
        for code in value:
            super().run_validators(code)


class WaysField(CodesField):
    """Several ways, one a line, each a list of codes."""

    def to_python(self, value: Any) -> Any:
        lines = str(value or "").splitlines()
        ways = [super(WaysField, self).to_python(line) for line in lines]
        return [way for way in ways if way]

    def prepare_value(self, value: Any) -> Any:
        return "\n".join(", ".join(way) for way in value) if isinstance(value, list | tuple) else value

    def run_validators(self, value: Any) -> None:
        for way in value:
            super().run_validators(way)


class LinesField(forms.CharField):
    """Texts, one a line."""

    widget = forms.Textarea({"rows": 3})

    def to_python(self, value: Any) -> Any:
        return [line.strip() for line in str(value or "").splitlines() if line.strip()]

    def prepare_value(self, value: Any) -> Any:
        return "\n".join(value) if isinstance(value, list | tuple) else value

    def validate(self, value: Any) -> None:
        """Any lines will do."""

    def run_validators(self, value: Any) -> None:
        for line in value:
            super().run_validators(line)


class FigureInput(forms.TextInput):
    """A number as people write it; a phone shows its keys for figures."""

    def __init__(self) -> None:
        super().__init__({"inputmode": "decimal", "class": "figure", "autocomplete": "off"})

    def format_value(self, value: Any) -> str | None:
        if not isinstance(value, int | float | Decimal):
            return str(value) if value is not None else None
        return figure(value).replace(",", "").replace(".", decimal_mark())


def _typed(value: Any) -> Any:
    """As numbers are written, where it is a text. ValidationError where it can be read in two ways."""
    if not isinstance(value, str):
        return value
    if ambiguous := two_ways(value, decimal_mark()):
        raise ValidationError(ambiguous)
    return typed_figure(value, decimal_mark())


class TypedFloat(forms.FloatField):
    def to_python(self, value: Any) -> Any:
        return super().to_python(_typed(value))


class TypedWhole(forms.IntegerField):
    def to_python(self, value: Any) -> Any:
        return super().to_python(_typed(value))


class TypedDecimal(forms.DecimalField):
    def to_python(self, value: Any) -> Any:
        return super().to_python(_typed(value))


def _choice(asked: Input, rows: CatalogueRows, **more: Any) -> forms.Field:
    found: Choices
    found = asked.choices(rows) if callable(asked.choices) else asked.choices
    blank = [] if any(not code for code, _ in found) else [("", "")]
    return forms.ChoiceField(choices=[*blank, *found], **more)


def _known(asked: Input, rows: CatalogueRows) -> dict[str, str]:
    return {row.code: getattr(row, "name", row.code) for row in getattr(rows, asked.target)}


FIGURES: dict[str, Callable[..., forms.Field]] = {
    "number": TypedFloat,
    "whole": TypedWhole,
    "hours": TypedDecimal,
    "money": TypedDecimal,
}


def field_of(asked: Input, rows: CatalogueRows) -> forms.Field:
    """The form field of one input."""
    more: dict[str, Any] = {"label": asked.label, "required": asked.required, "help_text": asked.says}
    if asked.sort in FIGURES:
        return FIGURES[asked.sort](widget=FigureInput(), **more)
    if asked.sort == "choice":
        return _choice(asked, rows, **more)
    if asked.sort == "tick":
        return forms.BooleanField(**{**more, "required": False})
    if asked.sort == "codes":
        return CodesField(asked.target, _known(asked, rows), **more)
    if asked.sort == "ways":
        return WaysField(asked.target, _known(asked, rows), **more)
    if asked.sort == "lines":
        return LinesField(max_length=LONG, **more)
    if asked.sort == "long":
        return forms.CharField(max_length=LONG, widget=forms.Textarea({"rows": 2}), **more)
    return forms.CharField(max_length=SHORT, **more)
