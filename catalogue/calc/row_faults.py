"""Says in plain words what a row can't hold: the value that was given, and what is allowed."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from pydantic import ValidationError

from catalogue.calc.numbers import figure

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
        return "is missing"
    if kind in NUMBERS:
        whole = "a whole number" if kind.startswith("int") else "a number"
        return f"{whole} is wanted, not {shortened(given)}"
    bounds = {
        "greater_than": ("must be above", "gt"),
        "greater_than_equal": ("must be at least", "ge"),
        "less_than": ("must be below", "lt"),
        "less_than_equal": ("must be at most", "le"),
    }
    if kind in bounds:
        words, name = bounds[kind]
        return f"{words} {shortened(allowed[name])}, not {shortened(given)}"
    return _of_text(kind, given, allowed) or str(found["msg"])


def _of_text(kind: str, given: Any, allowed: Mapping[str, Any]) -> str:
    if kind == "literal_error":
        return f"is one of {allowed['expected']}, not {shortened(given)}"
    if kind == "string_too_long":
        return f"is {len(given)} letters long; {allowed['max_length']} are allowed"
    if kind == "decimal_max_places":
        return f"{given} has too many decimals; {allowed['decimal_places']} are allowed"
    if kind == "string_pattern_mismatch":
        return _pattern(given, str(allowed["pattern"]))
    said = {
        "too_short": "needs at least one entry",
        "extra_forbidden": "there is no such field",
        "finite_number": f"a number is wanted, not {shortened(given)}",
    }
    return said.get(kind, "")


def _pattern(given: str, pattern: str) -> str:
    if "\x00" in given:
        return "holds a character that can't be stored (NUL)"
    if "A-Za-z0-9" in pattern:
        return f"takes letters, digits, underscores, dots and hyphens only, not {shortened(given)}"
    return f"can't be {shortened(given)}"


def shortened(given: Any) -> str:
    """What was given, in quotes if it is text, cut if it is long."""
    if isinstance(given, bool) or not isinstance(given, str | int | float | Decimal):
        return type(given).__name__
    if not isinstance(given, str):
        return figure(given) if len(str(given)) <= LONGEST_FIGURE and "e" not in str(given) else str(given)
    return repr(given if len(given) <= LONGEST_REPEATED else given[:LONGEST_REPEATED] + "...")
