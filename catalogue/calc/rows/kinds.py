"""The kinds of value that rows are made of: codes, names, money, shares, bands."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

Code = Annotated[str, StringConstraints(min_length=1, max_length=64, pattern=r"^[A-Za-z0-9_.\-]+$")]
Name = Annotated[
    str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200, pattern=r"^[^\x00]+$")
]
Text = Annotated[str, StringConstraints(strip_whitespace=True, max_length=2000, pattern=r"^[^\x00]*$")]
Grade = Annotated[str, StringConstraints(strip_whitespace=True, max_length=40, pattern=r"^[^\x00]*$")]
"""Of oil, as the can has it; empty where nobody has said."""
Codes = tuple[Code, ...]
Positive = Annotated[float, Field(gt=0, allow_inf_nan=False)]
NotNegative = Annotated[float, Field(ge=0, allow_inf_nan=False)]
Share = Annotated[float, Field(ge=0, le=1, allow_inf_nan=False)]
Money = Annotated[Decimal, Field(ge=0, le=10_000_000, allow_inf_nan=False, decimal_places=2)]
Hours = Annotated[Decimal, Field(ge=0, le=1000, allow_inf_nan=False, decimal_places=4)]
Days = Annotated[float, Field(gt=0, le=1000, allow_inf_nan=False)]
Count = Annotated[int, Field(ge=0, le=1000)]
RodType = Literal["split_plain", "one_piece_roller"]
Block = Literal["separate", "integral"]
Attribute = Literal["block", "case_split", "gearbox_access", "rod_type", "delivered"]
Unit = Literal["cylinder", "valve", "rod", "gear_pair", "head", "crank", "engine"]
Change = Literal["compression", "cams", "porting", "weight"]


class Row(BaseModel):
    """A frozen row that knows no field it was not told of."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class BandRow(Row):
    """A low, typical and high figure."""

    typical: float
    low: float
    high: float


class MoneyBand(Row):
    """A low, typical and high sum."""

    typical: Money
    low: Money
    high: Money
