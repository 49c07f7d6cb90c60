"""A comparison cut down to a few lines: its sums agree, and a hundred thousand of them fit on a disk."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.money.tax import tax_of, taxed_sum
from quotes.calc.sheet.base_values import Spread
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.values import Comparison, LeaveIt, Option
from quotes.calc.shop import TaxCode

CAUSES = 3


def shrunk(comparison: Comparison, lines: Sequence[int], tax_codes: Mapping[str, TaxCode]) -> Comparison:
    """The first options, each with so many of its lines; firm, since a cut band would mean nothing."""
    cut = (
        _option(option, many, tax_codes, comparison.decimals)
        for option, many in zip(comparison.options, lines, strict=False)
    )
    return comparison.model_copy(
        update={"firm": True, "leave_it": _leave(comparison.leave_it), "options": tuple(cut)}
    )


def _option(option: Option, many: int, tax_codes: Mapping[str, TaxCode], decimals: int) -> Option:
    kept = _spread_out(option, many)
    groups = tax_of([(line.tax_code, line.net) for line in kept], tax_codes, decimals)
    sums = taxed_sum(sum((line.net for line in kept), ZERO), groups)
    return option.model_copy(
        update={
            "lines": kept,
            "net": _firm(sums.net),
            "tax": _firm(sums.tax),
            "gross": _firm(sums.gross),
            "tax_groups": groups,
            "deposit": min(option.deposit, sums.gross),
            "work": option.work[:many],
            "operations": option.operations[:many],
            "where_the_chance_goes": option.where_the_chance_goes[:CAUSES],
            **_left_out(),
        }
    )


def _left_out() -> dict[str, object]:
    """What a list and a sum need none of."""
    cut: dict[str, object] = {name: {} for name in ("renewed", "reconditioned", "offered", "left")}
    cut |= dict.fromkeys(("if_needed", "ladder", "against", "lives", "openings", "notes", "attention"), ())
    return cut | dict.fromkeys(("season", "exposure", "tune_figures"), None)


def _spread_out(option: Option, many: int) -> tuple[Line, ...]:
    every = len(option.lines) / min(many, len(option.lines))
    return tuple(option.lines[int(place * every)] for place in range(min(many, len(option.lines))))


def _firm(amount: Decimal) -> Spread:
    return Spread(low=amount, typical=amount, high=amount)


def _leave(leave: LeaveIt) -> LeaveIt:
    cut: dict[str, object] = dict.fromkeys(("falls_due", "lives", "notes", "attention"), ())
    causes = leave.where_the_chance_goes[:CAUSES]
    return leave.model_copy(update=cut | {"where_the_chance_goes": causes, "power": None})
