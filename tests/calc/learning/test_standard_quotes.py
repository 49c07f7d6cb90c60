"""What a change would do to the three standard quotes."""

from __future__ import annotations

from typing import Any

from catalogue.calc.approved_lives import with_approved
from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Request
from quotes.calc.learning.standard_quotes import STANDARD, effects
from quotes.calc.sheet.values import Comparison
from quotes.calc.shop import Shop
from tests.calc.learning.cast import ON
from tests.calc.learning.test_approved_lives import approved
from tests.calc.small import shop
from tests.cast import shipped
from tests.sample_sheet import sample_comparison


def worked(request: Request, catalogue: EngineCatalogue, rules: Shop) -> Comparison:
    """Instead of the sums: the chance to leave it is a thousandth for each hundred miles of spring life."""
    life = catalogue.components["valve_spring"].lives["miles"].typical
    whole = sample_comparison()
    chance = whole.leave_it.chance.model_copy(update={"value": life / 100_000})
    left: dict[str, Any] = {"chance": chance}
    return whole.model_copy(update={"leave_it": whole.leave_it.model_copy(update=left)})


def test_each_is_worked_out_before_and_after_and_only_what_moves_is_said_to() -> None:
    asked: list[tuple[str, str]] = []

    def work_out(request: Request, catalogue: EngineCatalogue, rules: Shop) -> Comparison:
        asked.append((request.engine.type, request.planned.duty))
        return worked(request, catalogue, rules)

    change = approved(engine_type="four600", typical=9000.0)
    found = effects(shipped, lambda code: with_approved(shipped(code), [change]), shop(), ON, work_out)

    assert [effect.moves for effect in found] == [True, True, False]
    assert asked == [
        *[("four600", "sprint")] * 2,
        *[("four600", "endurance")] * 2,
        ("single450", "motocross"),
    ]
    left, *built = found[0].ways
    assert left.before is not None
    assert left.after is not None
    assert (left.before.chance, left.after.chance) == (0.045, 0.09)
    assert not any(way.moves for way in built)


def test_a_type_that_the_catalogue_lacks_is_passed_over() -> None:
    known = {"single450": shipped("single450")}

    found = effects(known.get, known.get, shop(), ON, worked)

    assert len(found) == 1 < len(STANDARD)
