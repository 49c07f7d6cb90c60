"""Opens one figure of an option by its key, and all of them in the order in which they are read."""

from __future__ import annotations

from collections.abc import Callable

from quotes.calc.origin.chance import chance, wheel_lock
from quotes.calc.origin.dates import ready
from quotes.calc.origin.hours import all_hours, of_kind, operation
from quotes.calc.origin.life import component
from quotes.calc.origin.price import line, needed
from quotes.calc.origin.reach import good_for
from quotes.calc.origin.total import (
    adding,
    deposit,
    expected_loss,
    gross,
    net,
    per_season,
    season_gross,
    section,
)
from quotes.calc.origin.values import Origin
from quotes.calc.origin.worked import Explained

_WHOLE: dict[str, Callable[[Explained], Origin | None]] = {
    "chance": chance,
    "wheel_lock": wheel_lock,
    "good_for": good_for,
    "gross": gross,
    "season": season_gross,
    "net": net,
    "deposit": deposit,
    "per_season": per_season,
    "expected_loss": expected_loss,
    "hours": all_hours,
    "ready": ready,
}
"""Figures of the option as a whole."""


def opened(told: Explained, key: str) -> Origin:
    """The figure of a key such as `chance`, `component:piston` or `line:part:piston`.

    KeyError where the option has no such figure.
    """
    kind, _, code = key.partition(":")
    found = _named(told, kind, code) if code else _WHOLE[kind](told)
    if found is None:
        raise KeyError(key)
    return found


def _named(told: Explained, kind: str, code: str) -> Origin:
    by_kind: dict[str, Callable[[], Origin]] = {
        "component": lambda: component(told, code),
        "adding": lambda: adding(told, code),
        "line": lambda: line(told, code),
        "needed": lambda: needed(told, code),
        "section": lambda: section(told, code),
        "work": lambda: of_kind(told, code),  # type: ignore[arg-type]
        "operation": lambda: operation(told, told.catalogue.operations[code]),
    }
    return by_kind[kind]()


def _once(figure: Origin) -> Origin:
    """A sum without the operations that stand among the hours."""
    return figure.without_hours() if figure.key in {"gross", "season"} else figure


def every_figure(told: Explained) -> tuple[Origin, ...]:
    """All that a sheet of this option shows, each opened once."""
    whole = (figure(told) for key, figure in _WHOLE.items() if key != "net")
    ranked = sorted(told.hazards, key=lambda code: (-told.hazards[code], code))
    components = (component(told, code) for code in ranked)
    if_needed = (needed(told, key) for key in told.needed)
    left = (adding(told, code) for code in (*told.option.offered, *told.option.left))
    return (*(_once(figure) for figure in whole if figure is not None), *components, *if_needed, *left)
