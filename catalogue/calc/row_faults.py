"""Says in plain words what a row can't hold: the value that was given, and what is allowed."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from pydantic import ValidationError

from catalogue.calc.numbers import figure
from catalogue.calc.said import say, to_say

LONGEST_FIGURE = 12
"""A number longer than this is not written anew."""
LONGEST_REPEATED = 40
"""A text longer than this is not repeated in full."""
NUMBERS = frozenset(
    {
        "float_type",
        "float_parsing",
        "int_type",
        "int_parsing",
        "int_from_float",
        "decimal_type",
        "decimal_parsing",
    }
)
ABSENT = frozenset({"missing"})


def row_faults(error: ValidationError) -> list[tuple[tuple[str | int, ...], str]]:
    """Where each fault stands in the row, and the reason in words."""
    return [(found["loc"], reason(dict(found))) for found in error.errors(include_url=False)]


def reason(found: Mapping[str, Any]) -> str:
    """One fault of the row model as a sentence without its place."""
    kind, given, allowed = found["type"], found["input"], found.get("ctx", {})
    if kind in ABSENT or given is None or given == "":
        return say("is missing")
    if kind in NUMBERS:
        if kind.startswith("int"):
            return say("a whole number is wanted, not {given}", given=shortened(given))
        return say("a number is wanted, not {given}", given=shortened(given))
    bounds = {
        "greater_than": (to_say("must be above {bound}, not {given}"), "gt"),
        "greater_than_equal": (to_say("must be at least {bound}, not {given}"), "ge"),
        "less_than": (to_say("must be below {bound}, not {given}"), "lt"),
        "less_than_equal": (to_say("must be at most {bound}, not {given}"), "le"),
    }
    if kind in bounds:
        words, name = bounds[kind]
        return say(words, bound=shortened(allowed[name]), given=shortened(given))
    return _of_text(kind, given, allowed) or str(found["msg"])


def _of_text(kind: str, given: Any, allowed: Mapping[str, Any]) -> str:
    if kind == "literal_error":
        return say("is one of {names}, not {given}", names=allowed["expected"], given=shortened(given))
    if kind == "string_too_long":
        return say(
            "is {count} letters long; {most} are allowed", count=len(given), most=allowed["max_length"]
        )
    if kind == "decimal_max_places":
        most = allowed["decimal_places"]
        return say("{given} has too many decimals; {most} are allowed", given=given, most=most)
    if kind == "string_pattern_mismatch":
        return _pattern(given, str(allowed["pattern"]))
    said = {
        "too_short": say("needs at least one entry"),
        "extra_forbidden": say("there is no such field"),
        "finite_number": say("a number is wanted, not {given}", given=shortened(given)),
    }
    return said.get(kind, "")


def _pattern(given: str, pattern: str) -> str:
    if "\x00" in given:
        return say("holds a character that can't be stored (NUL)")
    if "A-Za-z0-9" in pattern:
        return say(
            "takes letters, digits, underscores, dots and hyphens only, not {given}", given=shortened(given)
        )
    return say("can't be {given}", given=shortened(given))


def shortened(given: Any) -> str:
    """What was given, in quotes if it is text, cut if it is long."""
    if isinstance(given, bool) or not isinstance(given, str | int | float | Decimal):
        return type(given).__name__
    if not isinstance(given, str):
        return figure(given) if len(str(given)) <= LONGEST_FIGURE and "e" not in str(given) else str(given)
    return repr(given if len(given) <= LONGEST_REPEATED else given[:LONGEST_REPEATED] + "...")
