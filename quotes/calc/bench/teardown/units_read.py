"""What stands on an instrument, as a value in the unit of its limit.

Factors are exact. Inch and pound: international yard and pound agreement of 1959, 1 in = 25.4 mm and
1 lbf = 4.4482216152605 N; so in NIST SP 811 (2008), appendix B.8, with 1 bar = 100 kPa and standard gravity
9.80665 m/s2. A psi is one lbf on one square inch.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from catalogue.calc.said import say, say_figure

POUND_FORCE_N = Fraction("4.4482216152605")
INCH_MM = Fraction("25.4")
PSI_BAR = POUND_FORCE_N / (INCH_MM / 1000) ** 2 / 100_000
STEP = Decimal("0.000001")
"""Values are kept at six decimals: a nanometre where the unit is mm."""
MOST = Decimal(1_000_000)
LONGEST = 24

LENGTH: Mapping[str, Fraction] = {
    "mm": Fraction(1),
    "thou": INCH_MM / 1000,
    "in": INCH_MM,
    "µm": Fraction(1, 1000),
}
PRESSURE: Mapping[str, Fraction] = {"bar": Fraction(1), "psi": PSI_BAR, "kPa": Fraction(1, 100)}
FORCE: Mapping[str, Fraction] = {"N": Fraction(1), "lbf": POUND_FORCE_N, "kgf": Fraction("9.80665")}
RATIO: Mapping[str, Fraction] = {"ratio": Fraction(1), "%": Fraction(1, 100)}
PERCENT: Mapping[str, Fraction] = {"%": Fraction(1)}
DEGREES: Mapping[str, Fraction] = {"degrees": Fraction(1)}
KINDS: Mapping[str, Mapping[str, Fraction]] = {
    "mm": LENGTH,
    "bar": PRESSURE,
    "N": FORCE,
    "ratio": RATIO,
    "percent": PERCENT,
    "degrees": DEGREES,
}
"""What a value may be read in, by the unit that it is kept in."""
NUMBER = re.compile(r"[+-]?([0-9]+([.,][0-9]*)?|[.,][0-9]+)")


class Fault(ValueError):
    """What is wrong with a reading: at which field, what stood there, and what is allowed."""

    def __init__(self, field: str, given: str, allowed: str) -> None:
        self.field, self.given, self.allowed = field, given, allowed
        said = say("{given} can't be taken: {allowed}.", given=repr(given), allowed=allowed)
        super().__init__(said if given else say("Nothing is given: {allowed}.", allowed=allowed))


def units_for(unit: str) -> tuple[str, ...]:
    """What may be read where the value is kept in this unit; one that is not known is read as it is."""
    return tuple(KINDS.get(unit, {unit: Fraction(1)}))


def factor(read_in: str, kept_in: str) -> Fraction:
    """How much of the kept unit one of the read unit is; Fault at `unit` where they don't go together."""
    known = KINDS.get(kept_in, {kept_in: Fraction(1)})
    if read_in not in known:
        raise Fault("unit", read_in, say("one of {units}", units=", ".join(known)))
    return known[read_in]


def value_of(entered: str, read_in: str, kept_in: str) -> Decimal:
    """The value in its kept unit, at six decimals. Comma or point; Fault by field.

    A share of new may be given as two figures of one instrument, measured / new: 36.9/38.26.
    """
    text = entered.strip()
    if len(text) > LONGEST:
        raise Fault("entered", text, say("{most} characters or fewer", most=LONGEST))
    scale = factor(read_in, kept_in)
    shared = kept_in == "ratio" and "/" in text
    value = _share(text) if shared else _number(text) * scale
    kept = (Decimal(value.numerator) / Decimal(value.denominator)).quantize(STEP, ROUND_HALF_UP)
    if abs(kept) > MOST:
        raise Fault(
            "entered", text, say("between -{most} and {most} {unit}", most=say_figure(MOST, 0), unit=kept_in)
        )
    return kept


def _share(text: str) -> Fraction:
    read, _, new = text.partition("/")
    over = _number(new.strip(), text)
    if over <= 0:
        raise Fault("entered", text, say("measured / new, and new is above nought"))
    return _number(read.strip(), text) / over


def _number(text: str, given: str = "") -> Fraction:
    if not NUMBER.fullmatch(text):
        raise Fault("entered", given or text, say("a figure such as 0.05 or 0,05"))
    return Fraction(text.replace(",", "."))
