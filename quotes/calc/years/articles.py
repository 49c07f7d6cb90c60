"""Articles as suppliers list them: a hundred thousand invented numbers, names and costs."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.price_list.listed import Listed
from quotes.calc.years.mixed import mixed, one_of

THINGS = (
    "piston", "piston ring set", "gudgeon pin", "circlip", "connecting rod", "rod bolt", "big end bearing",
    "main bearing shell", "crankshaft oil seal", "camshaft, inlet", "camshaft, exhaust", "cam chain",
    "cam chain guide", "tensioner", "valve, inlet", "valve, exhaust", "valve spring", "valve guide",
    "valve stem seal", "valve seat ring", "collet", "head gasket", "base gasket", "cover gasket", "O-ring",
    "clutch plate", "clutch spring", "gearbox sprocket", "oil pump rotor", "oil filter", "water pump seal",
    "dowel", "washer, copper", "stud", "flange nut", "cylinder liner, plated", "reed valve", "throttle shaft",
)  # fmt: skip
MADE = (
    "forged",
    "cast",
    "hardened",
    "coated",
    "racing",
    "standard",
    "oversize",
    "reinforced",
    "light",
    "short",
)
SUPERSEDED_OF = 40
"""One in so many has a number that took its place: that of a later article of the same supplier."""
SUPPLIERS = 4
"""Each lists every fourth article."""
CENT = Decimal("0.01")


def article(seed: int, index: int) -> Listed:
    """The article of that index; every fortieth was replaced."""
    thing, made = one_of(THINGS, seed, index, 11), one_of(MADE, seed, index, 12)
    size = 20 + mixed(seed, index, 13) % 9000 / 100
    cost = Decimal(200 + mixed(seed, index, 14) % 90_000) * CENT
    return Listed(
        line=index + 2,
        number=_number(seed, index),
        name=f"{thing[:1].upper()}{thing[1:]}, {made}, {size:.2f} mm",
        cost=cost,
        list_price=cost + cost,
        unit="piece",
        superseded_by=_number(seed, index + SUPPLIERS) if index % SUPERSEDED_OF == 0 else "",
    )


def _number(seed: int, index: int) -> str:
    letters = one_of("BCDFGHKLMPRSTVW", seed, index, 15) + one_of("ADENRX", seed, index, 16)
    return f"{letters}-{index:06}-{mixed(seed, index, 17) % 90 + 10}"
