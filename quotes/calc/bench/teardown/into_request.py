"""A quote's request with what the strip-down showed in it: readings, findings, and that it is stripped."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from quotes.calc.ask.fault import Fault
from quotes.calc.ask.request import Edits, MeasuredPower, Observed, Reading, Request
from quotes.calc.bench.again.line_changes import within_limits
from quotes.calc.sheet.values import Option


@dataclass(frozen=True, slots=True)
class Shown:
    """What the teardown of a job shows. `entered` were ever written down, also those no longer standing."""

    readings: tuple[Reading, ...]
    findings: tuple[Observed, ...]
    readings_entered: tuple[Reading, ...]
    findings_entered: tuple[Observed, ...]
    measured_power: MeasuredPower | None = None
    """What the dyno last read on the engine as it came."""


def with_teardown(request: Request, shown: Shown) -> Request:
    """The request as it is after the strip-down; what was typed into it by hand, and all edits, stay.

    A reading or finding that the teardown has, or had and took back, is the teardown's to say.
    """
    by_hand = [one for one in request.readings if not _is_read(one, shown.readings_entered)]
    seen_by_hand = [one for one in request.findings if not _is_seen(one, shown.findings_entered)]
    engine = request.engine
    if shown.measured_power is not None:
        engine = engine.model_copy(update={"measured_power": shown.measured_power})
    return request.model_copy(
        update={
            "stripped": True,
            "engine": engine,
            "readings": (*by_hand, *shown.readings),
            "findings": (*seen_by_hand, *dict.fromkeys(shown.findings)),
        }
    )


def _is_read(one: Reading, entered: Iterable[Reading]) -> bool:
    """Whether the teardown has this quantity of this part, in this place or in any where none is named."""
    return any(
        (each.component, each.quantity) == (one.component, one.quantity) and one.place in ("", each.place)
        for each in entered
    )


def _is_seen(one: Observed | str, entered: Iterable[Observed]) -> bool:
    told = one if isinstance(one, Observed) else Observed(id=one)
    return any(
        each.id == told.id and told.component in (None, each.component) and told.place in ("", each.place)
        for each in entered
    )


def named(fault: Fault, request: Request) -> Fault:
    """A fault of a reading or finding, with its quantity and place in the place of its number."""
    what, _, rest = fault.field.partition(".")
    number, _, field = rest.partition(".")
    rows = {"readings": request.readings, "findings": request.findings}.get(what, ())
    if not number.isdigit() or int(number) >= len(rows):
        return fault
    row = rows[int(number)]
    name = row.quantity if isinstance(row, Reading) else row.id if isinstance(row, Observed) else row
    place = "" if isinstance(row, str) else row.place
    told = ", ".join(filter(None, (f"{what.removesuffix('s')} {name.replace('_', ' ')}", place, field)))
    return Fault(told, fault.value, fault.allowed)


def as_accepted(request: Request, tier: str, taken: Iterable[str]) -> Request:
    """The request of a yes, after the strip-down: its one option, with all that was taken in it."""
    edits, codes = request.edits.get(tier, Edits()), tuple(taken)
    kept = edits.model_copy(
        update={
            "include": tuple(dict.fromkeys((*edits.include, *codes))),
            "leave": tuple(code for code in edits.leave if code not in codes),
        }
    )
    return request.model_copy(
        update={"tiers": (tier,), "stripped": True, "edits": {**request.edits, tier: kept}}
    )


def after_the_yes(request: Request, option: Option, extras: Iterable[str], shown: Shown) -> Request:
    """The request of a yes with what the teardown shows: what was accepted stays, unless measured within.

    A power that was measured since makes no work, so it is no matter for a proposal.
    """
    within = within_limits(shown.readings)
    still = [code for code in taken_in(option) if code not in within]
    found = replace(shown, measured_power=None)
    return with_teardown(as_accepted(request, option.tier, (*still, *extras)), found)


def taken_in(option: Option) -> tuple[str, ...]:
    """Components that an option renews for their own sake; what goes with another comes by itself."""
    return tuple(code for code, reason in option.renewed.items() if not reason.chain)
