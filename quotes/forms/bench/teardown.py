"""What the tablet sends from a strip-down: checked shapes of one entry each."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Literal
from uuid import UUID

from pydantic import BaseModel, ConfigDict, Field, StringConstraints, TypeAdapter, ValidationError

from catalogue.calc.said import say

WEEK_MS = 7 * 24 * 3_600_000


def _line(most: int) -> StringConstraints:
    return StringConstraints(strip_whitespace=True, max_length=most, pattern=r"^[^\x00]*$")


Short = Annotated[str, _line(80)]
Line = Annotated[str, _line(300)]
Long = Annotated[str, _line(500)]
Age = Annotated[int, Field(ge=0, le=WEEK_MS)]


class Sent(BaseModel):
    """An entry with the key that it was made under, and how many ms ago by the tablet's own clock.

    An age, not a time: a tablet's clock may be wrong, but it runs at the right speed.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")

    key: UUID
    age: Age = 0


class SentReading(Sent):
    """One reading."""

    kind: Literal["reading"]
    entered: Annotated[str, _line(24)]
    unit: Annotated[str, _line(20)]
    code: Annotated[str, _line(64)] = ""
    place: Short = ""
    component: Annotated[str, _line(64)] = ""
    name: Annotated[str, _line(200)] = ""
    when: Annotated[str, _line(12)] = "stripped"
    note: Line = ""
    instrument: int | None = None


class SentFinding(Sent):
    """One finding."""

    kind: Literal["finding"]
    judged: Annotated[str, _line(12)] = ""
    code: Annotated[str, _line(64)] = ""
    component: Annotated[str, _line(64)] = ""
    place: Short = ""
    words: Long = ""
    cause: Long = ""
    consequence: Long = ""
    until_amount: Annotated[Decimal, Field(gt=0, le=1_000_000, allow_inf_nan=False)] | None = None
    until_unit: Literal["", "h", "mi", "km", "runs"] = ""


class SentPhoto(Sent):
    """What goes with a photo; `finding` is the key of the finding that it shows."""

    finding: UUID | None = None
    place: Short = ""
    words: Line = ""


class SentBack(Sent):
    """A finding taken back."""

    kind: Literal["withdraw"]
    finding: UUID
    because: Line


Entry = Annotated[SentReading | SentFinding | SentBack, Field(discriminator="kind")]
entry_of: TypeAdapter[Entry] = TypeAdapter(Entry)


def fault_words(wrong: ValidationError) -> tuple[str, str]:
    """The field and what is wrong with it, of the first fault."""
    first = wrong.errors()[0]
    field = str(first["loc"][-1]) if first["loc"] else ""
    return field, say(
        "{given} can't be taken: {why}.", given=repr(str(first.get("input"))[:80]), why=first["msg"].lower()
    )
