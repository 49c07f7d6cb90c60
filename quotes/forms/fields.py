"""The typed cell of a printed card: it keeps what was typed, and its fault stands in a place of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms

from catalogue.calc.said import say
from catalogue.calc.typed_figure import decimal_mark, typed_figure

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

NUL = "\x00"
SHOWN = 40
"""So many characters of a bad value are repeated in its fault."""


def figure(typed: str) -> str:
    """`typed` as a number is written, by the marks of the page's language ("4,100" is 4100 in English)."""
    return typed_figure(typed, decimal_mark())


def figure_shown(number: str) -> str:
    """A number as it stands in a field of the page, so that it is read again as it was."""
    return number.replace(".", decimal_mark())


def quoted(value: object) -> str:
    """A bad value as a fault repeats it: shortened, and without the characters that can't be shown."""
    text = "".join(one if one.isprintable() else "\N{REPLACEMENT CHARACTER}" for one in str(value))
    return say("“{text}”", text=f"{text[:SHOWN]}…" if len(text) > SHOWN else text)


class CardField(forms.BoundField):
    """A field of the card; `aria-describedby` always names its fault's place, which may be empty.

    Faults of cards come while one types, so the place has to be known before there is one.
    """

    @property
    def fault_id(self) -> str:
        return f"{self.auto_id}_error"

    @property
    def aria_describedby(self) -> str:
        note = f" {self.auto_id}_helptext" if self.help_text else ""
        return f"{self.fault_id}{note}"

    @property
    def fault(self) -> str:
        """The first fault, or nothing: one at a time can be mended."""
        return str(self.errors[0]) if self.errors else ""


class CardForm(forms.Form):
    """A part of a card. Its fields are text: what the text may be is for the value it becomes to say."""

    bound_field_class = CardField
    use_required_attribute = False
    content: tuple[str, ...] = ()
    """The fields that make a row count as filled in."""
    needed: tuple[str, ...] = ()
    """The fields that a row must have to be kept."""

    @property
    def is_blank(self) -> bool:
        return not any(self.typed(name) for name in self.content or self.fields)

    def typed(self, name: str) -> str:
        """What was typed into a field, without the space round it."""
        return str(self[name].data or "").strip()

    def say(self, name: str, fault: str) -> None:
        """Put a fault at a field, once."""
        if fault not in self.errors.get(name, ()):
            self.add_error(name, fault)


def text(label: StrOrPromise, **more: Any) -> forms.CharField:
    """A line to write on. Length and NUL are refused by the value that it becomes."""
    field = forms.CharField(label=label, required=False, strip=False, help_text=more.pop("help_text", ""))
    field.validators = []
    field.widget.attrs.update({"autocomplete": "off"} | more)
    return field


def lines(label: StrOrPromise) -> forms.CharField:
    """Several lines to write on."""
    field = text(label)
    field.widget = forms.Textarea(attrs={"rows": 3, "autocomplete": "off"})
    return field


def number(label: StrOrPromise, *, whole: bool = False, **more: Any) -> forms.CharField:
    """A figure; a text field, because a number field loses what it can't read."""
    return text(label, inputmode="numeric" if whole else "decimal", **more)


def day(label: StrOrPromise) -> forms.CharField:
    field = text(label)
    field.widget = forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
    return field


def choice(label: StrOrPromise, choices: Any = (), **more: Any) -> forms.CharField:
    """A select. An unknown code gets through to the value, which names it and what is allowed."""
    field = text(label, **more)
    field.widget = forms.Select(choices=list(choices), attrs=field.widget.attrs)
    return field


def tick(label: StrOrPromise, help_text: StrOrPromise = "") -> forms.BooleanField:
    return forms.BooleanField(label=label, required=False, help_text=help_text)
