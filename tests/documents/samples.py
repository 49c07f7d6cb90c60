"""Comparisons at the edges, made from the sample by moving its prices and chances."""

from __future__ import annotations

from decimal import Decimal

from quotes.calc.sheet.base_values import Spread
from quotes.calc.sheet.chance_values import LadderStep
from quotes.calc.sheet.values import Comparison, Option
from tests.sample_sheet import sample_comparison


def moved(option: Option, gross: str, chance: float, low: float, high: float) -> Option:
    """The option at another price and chance, one line and no tax in it, its ladder moved along."""
    price, apart = Decimal(gross), Decimal(gross) - option.gross.typical
    spread = Spread(low=price, typical=price, high=price)
    return option.model_copy(
        update={
            "gross": spread,
            "net": spread,
            "lines": (option.lines[0].model_copy(update={"quantity": Decimal(1), "net": price}),),
            "tax_groups": (),
            "tax": Spread(low=Decimal(0), typical=Decimal(0), high=Decimal(0)),
            "chance": option.chance.model_copy(update={"value": chance, "low": low, "high": high}),
            "ladder": tuple(
                step.model_copy(
                    update={
                        "gross": max(step.gross + apart, Decimal(0)),
                        "chance": min(max(step.chance + chance - option.chance.value, 0.001), 0.999),
                    }
                )
                for step in option.ladder
            ),
        }
    )


def with_twelve_steps(option: Option) -> Option:
    """The longest ladder the sums ever make."""
    steps = tuple(
        LadderStep(
            number=number,
            adds=(f"part_{number}",),
            names=(f"Part {number}",),
            more=Decimal(250),
            gross=option.gross.typical + 250 * (number - 5),
            chance=min(0.99, max(0.01, option.chance.value + (number - 5) * 0.006)),
            is_option=number == 5,
        )
        for number in range(1, 13)
    )
    return option.model_copy(update={"ladder": steps})


def comparison_with(*options: Option) -> Comparison:
    return sample_comparison().model_copy(update={"options": options})


def one_option() -> Comparison:
    return comparison_with(sample_comparison().options[0])


def prices_a_few_units_apart() -> Comparison:
    refresh, mild, full = sample_comparison().options
    return comparison_with(
        moved(refresh, "5000", 0.951, 0.922, 0.972),
        moved(mild, "5003", 0.948, 0.917, 0.970),
        moved(full, "5006", 0.822, 0.731, 0.894),
    )


def from_hopeless_to_nearly_sure() -> Comparison:
    refresh, mild, full = sample_comparison().options
    return comparison_with(
        moved(refresh, "5014.14", 0.999, 0.990, 0.9999),
        moved(mild, "7524.42", 0.998, 0.980, 0.9999),
        moved(full, "14809.67", 0.2, 0.08, 0.35),
    )


def long_ladders() -> Comparison:
    return comparison_with(*(with_twelve_steps(option) for option in sample_comparison().options))


EDGES = {
    "sample": sample_comparison,
    "one option": one_option,
    "prices a few units apart": prices_a_few_units_apart,
    "from hopeless to nearly sure": from_hopeless_to_nearly_sure,
    "long ladders": long_ladders,
}
