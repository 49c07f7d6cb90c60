"""What another factor on every risk would do to the standard quotes."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Request
from quotes.calc.bench.ages.factor_effect import factor_effects
from quotes.calc.sheet.values import Comparison
from quotes.calc.shop import Shop
from tests.calc.asked import ON
from tests.calc.small import SHOP, catalogue
from tests.sample_sheet import sample_comparison

CATALOGUE = catalogue()


def only_the_single(code: str) -> EngineCatalogue | None:
    return CATALOGUE if code == "single450" else None


def worked_out(request: Request, _: EngineCatalogue, shop: Shop) -> Comparison:
    """The sample, with every chance to the power of the factor."""
    assert request.engine.type == "single450"
    found = sample_comparison()
    chances = (one.chance.model_copy(update={"value": 0.9**shop.shop_factor}) for one in found.options)
    pairs = zip(found.options, chances, strict=True)
    return found.model_copy(
        update={"options": tuple(one.model_copy(update={"chance": chance}) for one, chance in pairs)}
    )


def test_every_option_is_held_against_itself_under_the_other_factor() -> None:
    found = factor_effects(only_the_single, SHOP, 2.0, ON, worked_out)
    assert [(one.chance, round(one.chance_then, 9)) for one in found] == [(0.9, 0.81)] * 3
    assert [one.option for one in found] == ["Refresh", "Mild build", "Full power"]
    assert all(one.gross == one.gross_then > Decimal(0) for one in found)
