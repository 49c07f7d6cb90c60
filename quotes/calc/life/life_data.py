"""Life data as a shop has it: what failed, what still runs, what was found past its limit at a look."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Annotated

from pydantic import BeforeValidator, Field, ValidationError
from pydantic_core import PydanticCustomError

from catalogue.calc.said import say
from quotes.calc.ask.fault import BadRequest, Fault
from quotes.calc.ask.read_request import fault_of
from quotes.calc.ask.request import Value

MAX_AGE = 1e9
"""A greater age is a slip of the finger, in any unit."""
MAX_ITEMS = 10_000
CONFIDENCE = 0.90
SHOWN = 5
"""How many ages a fault names before it says how many more there are."""


def _no_yes_or_no(value: object) -> object:
    """JSON's true would be read as an age of 1."""
    if isinstance(value, bool):
        raise PydanticCustomError("number", "must be a number")
    return value


Number = Annotated[float, BeforeValidator(_no_yes_or_no)]
Age = Annotated[Number, Field(gt=0, le=MAX_AGE, allow_inf_nan=False)]
AgeOrNew = Annotated[Number, Field(ge=0, le=MAX_AGE, allow_inf_nan=False)]


class LifeData(Value):
    """Ages of items of one kind, in one unit.

    `entries`, where given, has the age at which each item came under observation, in the order failures,
    suspensions, intervals; 0 is watched from new. Without it all were watched from new. An item that had
    failed before its entry could not have been seen: what ran up to the entry is no evidence.
    """

    failures: Annotated[tuple[Age, ...], Field(max_length=MAX_ITEMS)] = ()
    suspensions: Annotated[tuple[Age, ...], Field(max_length=MAX_ITEMS)] = ()
    """Still sound at this age."""
    intervals: Annotated[tuple[tuple[AgeOrNew, Age], ...], Field(max_length=MAX_ITEMS)] = ()
    """Last seen good at the first age, found failed or past its limit at the second."""
    entries: Annotated[tuple[AgeOrNew, ...], Field(max_length=3 * MAX_ITEMS)] = ()

    @property
    def failed(self) -> int:
        """How many failed, at a known age or between two."""
        return len(self.failures) + len(self.intervals)

    @property
    def last_good(self) -> tuple[float, ...]:
        """The age that each item is known to have reached sound, in the order of `entries`."""
        return (*self.failures, *self.suspensions, *(low for low, _ in self.intervals))

    @property
    def entered(self) -> tuple[float, ...]:
        """The age at which each item came under observation."""
        return self.entries or (0.0,) * len(self.last_good)

    @property
    def stretches(self) -> tuple[tuple[float, float], ...]:
        """From entry to the age last known sound, of the items that ran at all while they were watched."""
        watched = zip(self.entered, self.last_good, strict=True)
        return tuple((entry, left) for entry, left in watched if left > entry)


class LifeAsked(LifeData):
    """Life data, with what is to be made of it."""

    beta: Annotated[Number, Field(ge=0.1, le=100, allow_inf_nan=False)] | None = None
    """The shape, where it is known and only the characteristic life is asked."""
    confidence: Annotated[Number, Field(ge=0.5, le=0.999, allow_inf_nan=False)] = CONFIDENCE


def read_life_data(raw: object) -> LifeAsked:
    """The data in `raw`, as JSON gives it. Raises BadRequest with a fault for each field that is wrong."""
    if not isinstance(raw, Mapping):
        raise BadRequest(
            (Fault("data", str(raw)[:80], say("an object with failures, suspensions, intervals")),)
        )
    try:
        asked = LifeAsked.model_validate(raw)
    except ValidationError as error:
        raise BadRequest(tuple(fault_of(each, whole="data") for each in error.errors())) from error
    refuse_faults(asked)
    return asked


def refuse_faults(data: LifeData) -> None:
    """Raises BadRequest where the ages contradict each other."""
    if found := tuple(_contradictions(data)):
        raise BadRequest(found)


def _contradictions(data: LifeData) -> Iterator[Fault]:
    for place, (low, high) in enumerate(data.intervals):
        if low >= high:
            yield Fault(
                f"intervals.{place}",
                f"[{low:g}, {high:g}]",
                say("the age last seen good must be below the age at which it was found"),
            )
    if data.entries and len(data.entries) != len(data.last_good):
        allowed = say(
            "none, or one for each of the {count} failures, suspensions and intervals, in that order",
            count=len(data.last_good),
        )
        yield Fault("entries", say("{count} given", count=len(data.entries)), allowed)
    else:
        yield from _late_entries(data)


def _late_entries(data: LifeData) -> Iterator[Fault]:
    exact = len(data.failures) + len(data.suspensions)
    for place, (entry, left) in enumerate(zip(data.entered, data.last_good, strict=True)):
        field, name = f"entries.{place}", _item(data, place)
        if place < exact and entry >= left:
            allowed = say("must be below {age}, the age of {item}", age=f"{left:g}", item=name)
            yield Fault(field, f"{entry:g}", allowed)
        elif entry > left:
            allowed = say("at most {age}, where {item} was last seen good", age=f"{left:g}", item=name)
            yield Fault(field, f"{entry:g}", allowed)


def _item(data: LifeData, place: int) -> str:
    """The item that an entry belongs to, as its field is named."""
    for name, items in (("failures", data.failures), ("suspensions", data.suspensions)):
        if place < len(items):
            return f"{name}.{place}"
        place -= len(items)
    return f"intervals.{place}"


def some(ages: Sequence[float]) -> str:
    """The first few ages, for a fault to name."""
    shown = ", ".join(f"{age:g}" for age in ages[:SHOWN])
    more = len(ages) - SHOWN
    if more > 0:
        return say("{names} and {count} more", names=shown, count=more)
    return shown or say("none")
