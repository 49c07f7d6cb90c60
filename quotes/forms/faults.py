"""Says at a field of the card what is wrong with its value and what is allowed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, Protocol

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from catalogue.calc.said import say
from catalogue.calc.typed_figure import decimal_mark, two_ways
from quotes.forms.asked import Asked, Place, path_of
from quotes.forms.fields import NUL, quoted

MISSING = frozenset({"missing"})
DATE_FAULTS = ("date_", "datetime_")
NUMBER_FAULTS = ("decimal_", "int_", "float_", "finite_number", "is_instance_of")
BRANCHES = frozenset({"constrained-str", "str", "function-after"})
"""The second way in which a finding may be written; its faults would repeat the first one's."""


class Fault(Protocol):
    """A fault found by the sums: which field, what it holds, what may stand there."""

    @property
    def field(self) -> str: ...
    @property
    def value(self) -> object: ...
    @property
    def allowed(self) -> str: ...


def say_invalid(asked: Asked, invalid: ValidationError) -> tuple[list[str], list[str]]:
    """Put each fault of the request's own rules at its field.

    Returns the labels of what is still missing, and the faults that belong to no field.
    """
    missing: list[str] = []
    homeless: list[str] = []
    for error in invalid.errors(include_url=False):
        if error["loc"] and error["loc"][-1] in BRANCHES:
            continue
        place = asked.place(error["loc"])
        if error["type"] in MISSING and place:
            missing.append(place.label)
        elif place:
            place.form.say(place.name, invalid_in_words(error, place))
        else:
            homeless.append(f"{'.'.join(path_of(error['loc']))}: {error['msg']}")
    return missing, homeless


def say_faults(asked: Asked, faults: Iterable[Fault]) -> list[str]:
    """Put each fault of the sums at its field; returns those that belong to no field."""
    homeless: list[str] = []
    for fault in faults:
        place = asked.place(fault.field.replace("[", ".").replace("]", "").split("."))
        if place is None:
            homeless.append(homeless_in_words(fault))
        else:
            value = quoted(place.typed or str(fault.value))
            said = say("{value} can't stand here: {allowed}.", value=value, allowed=fault.allowed)
            place.form.say(place.name, said)
    return homeless


def homeless_in_words(fault: Fault) -> str:
    """A fault that no field of the page holds: of the catalogue, or of what the worksheet has written."""
    if fault.field.startswith("catalogue."):
        return f"{fault.allowed[:1].upper()}{fault.allowed[1:]}."
    return say(
        "{field}: {value} can't stand here: {allowed}.",
        field=fault.field.replace(".", ", "),
        value=quoted(fault.value),
        allowed=fault.allowed,
    )


def invalid_in_words(error: ErrorDetails, place: Place) -> str:
    """One sentence: the value as it was typed, what is wrong with it, what is allowed."""
    typed = place.typed or str(error["input"])
    kind = error["type"]
    if NUL in typed:
        return say("{typed} holds a character that can't be kept: type it again.", typed=quoted(typed))
    if place.name == "aim" and not two_ways(typed, decimal_mark()):
        return _aim_in_words(quoted(typed), kind)
    if kind.startswith(DATE_FAULTS):
        return say(
            "{typed} is not a date: write year, month and day, such as 2027-03-20.", typed=quoted(typed)
        )
    if kind.startswith(NUMBER_FAULTS):
        if ambiguous := two_ways(typed, decimal_mark()):
            return ambiguous
        return say("{typed} is not a number: write figures, such as 4,100 or 38.5.", typed=quoted(typed))
    return _limit_in_words(quoted(typed), kind, error.get("ctx", {}))


def _aim_in_words(typed: str, kind: str) -> str:
    if kind.startswith(NUMBER_FAULTS):
        return say("{typed} is not a number: write 18 in 20, or 90 per cent.", typed=typed)
    return say(
        "{typed} can't be aimed at: more than none, less than all; 18 in 20, or 90 per cent.", typed=typed
    )


def _limit_in_words(typed: str, kind: str, limits: Mapping[str, Any]) -> str:
    match kind:
        case "greater_than":
            return say("{typed} is too small: more than {least}.", typed=typed, least=_plain(limits["gt"]))
        case "greater_than_equal":
            return say("{typed} is too small: {least} or more.", typed=typed, least=_plain(limits["ge"]))
        case "less_than":
            return say("{typed} is too large: less than {most}.", typed=typed, most=_plain(limits["lt"]))
        case "less_than_equal":
            return say("{typed} is too large: at most {most}.", typed=typed, most=_plain(limits["le"]))
        case "string_too_long":
            most = limits["max_length"]
            return say("{typed} is too long: at most {most} characters.", typed=typed, most=most)
        case "literal_error":
            return say("{typed} is not one of {offered}.", typed=typed, offered=limits["expected"])
        case "string_pattern_mismatch":
            return say("{typed} is not known: choose one of the list.", typed=typed)
    return say("{typed} can't stand here.", typed=typed)


def _plain(number: Any) -> str:
    return f"{number:,}"
