"""The pick list of every way of building every engine: no companion is lost on the way to the order."""

from __future__ import annotations

from decimal import Decimal
from functools import lru_cache

import pytest

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.bench.parts.picking import AgreedWork, Pick, part_for, pick_list
from quotes.calc.compare import compare
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.from_yes import ExtraLines
from quotes.calc.money.lines import in_grade
from quotes.calc.sheet.values import Comparison, Option
from quotes.calc.work.bought import SUPPLIED_IN
from tests.calc.asked import asked, ran, tired_single
from tests.calc.small import SHOP
from tests.cast import shipped

TYPES = ("single450", "twin650", "four600", "four1000")
TIERS = ("refresh", "mild", "full")


@lru_cache
def compared(engine_type: str) -> Comparison:
    request = tired_single() if engine_type == "single450" else asked(engine_type, ran(4000))
    return compare(request, shipped(engine_type), SHOP)


def option_of(engine_type: str, tier: str) -> Option:
    return compared(engine_type).option(tier)


def had(component: str, picks: tuple[Pick, ...], catalogue: EngineCatalogue) -> bool:
    """Whether a component's new article is on the list, or comes with one that is; or has no price."""
    here = {pick.component for pick in picks}
    block = catalogue.engine_type.block
    givers = {code for code, one in catalogue.components.items() if component in one.comes_with}
    givers |= {
        one.article for one in SUPPLIED_IN if one.component == component and one.only_block in ("", block)
    }
    priced = any((component, grade) in catalogue.parts for grade in ("stock", "performance"))
    return component in here or bool(givers & here) or not priced


@pytest.mark.parametrize("tier", TIERS)
@pytest.mark.parametrize("engine_type", TYPES)
def test_every_part_of_the_sheet_is_picked_once_in_its_quantity_and_grade(
    engine_type: str, tier: str
) -> None:
    option, catalogue = option_of(engine_type, tier), shipped(engine_type)
    lines = [line for line in option.lines if line.kind == "part"]

    picks = pick_list(AgreedWork(option), catalogue)

    assert [(pick.key, pick.quantity) for pick in picks] == [
        (f"option:{line.key}", line.quantity) for line in lines
    ]
    for pick in picks:
        assert pick.part is not None
        assert pick.description in {pick.part.name, in_grade(pick.part.name, "10W-50")}
        assert pick.part.cost == pick.quoted_cost


@pytest.mark.parametrize("tier", TIERS)
@pytest.mark.parametrize("engine_type", TYPES)
def test_no_companion_is_lost_between_the_sheet_and_the_pick_list(engine_type: str, tier: str) -> None:
    option, catalogue = option_of(engine_type, tier), shipped(engine_type)

    picks = pick_list(AgreedWork(option), catalogue)

    for component in option.renewed:
        assert had(component, picks, catalogue), component
    for pick in picks:
        for companion in catalogue.components[pick.component].companions_on_renewal:
            if companion in catalogue.components and companion in option.renewed:
                assert had(companion, picks, catalogue), (pick.component, companion)


@pytest.mark.parametrize("tier", TIERS)
@pytest.mark.parametrize("engine_type", TYPES)
def test_an_extra_brings_its_companions_and_buys_nothing_twice(engine_type: str, tier: str) -> None:
    option, catalogue = option_of(engine_type, tier), shipped(engine_type)

    for extra in option.offered:
        picks = pick_list(AgreedWork(option, ticked=(extra,)), catalogue)

        numbers = [pick.part.number for pick in picks if pick.part]
        assert len(numbers) == len(set(numbers))
        assert had(extra, picks, catalogue), extra
        for companion in catalogue.components[extra].companions_on_renewal:
            if companion in catalogue.components:
                assert had(companion, picks, catalogue), (extra, companion)
        added = [pick for pick in picks if not pick.key.startswith("option:")]
        assert {pick.key for pick in added} <= {f"extra:{extra}:1"}


def test_what_extra_work_adds_and_takes_off_is_followed() -> None:
    option, catalogue = option_of("four600", "mild"), shipped("four600")
    first = next(line for line in option.lines if line.kind == "part" and line.quantity > 1)
    off = _line(first.description, -1, first.component)
    on = _line("Clutch basket", 1, "clutch_basket")

    picks = pick_list(AgreedWork(option, extra_work=(ExtraLines(2, (off, on)),)), catalogue)

    by_key = {pick.key: pick for pick in picks}
    assert by_key[f"option:{first.key}"].quantity == first.quantity - 1
    assert by_key["work:2:2"].part == catalogue.parts["clutch_basket", "stock"]


def test_what_is_taken_off_whole_is_not_ordered() -> None:
    option, catalogue = option_of("four600", "refresh"), shipped("four600")
    first = next(line for line in option.lines if line.kind == "part")
    off = _line(first.description, -first.quantity, first.component)

    picks = pick_list(AgreedWork(option, extra_work=(ExtraLines(1, (off,)),)), catalogue)

    assert first.component not in {pick.component for pick in picks}


def test_what_the_customer_brings_is_not_ordered() -> None:
    option, catalogue = option_of("four600", "refresh"), shipped("four600")
    first = next(line for line in option.lines if line.kind == "part")

    for brought, left in ((first.quantity, []), (Decimal(1), [first.quantity - 1])):
        picks = pick_list(AgreedWork(option), catalogue, own_parts={first.component or "": brought})
        assert [pick.quantity for pick in picks if pick.component == first.component] == left


def _line(words: str, quantity: Decimal | int, component: str | None) -> DraftLine:
    return DraftLine(
        kind="part",
        description=words,
        quantity=Decimal(quantity),
        unit_price=Decimal(10),
        tax_code="standard",
        component=component,
    )


@pytest.mark.parametrize(
    ("component", "words", "grade"),
    [
        ("head_gasket", "head gasket, performance grade", "performance"),
        ("head_gasket", "head gasket", "stock"),
        ("engine_oil", "engine oil, performance grade, 10W-50", "performance"),
        ("engine_oil", "engine oil, 10W-50", "stock"),
    ],
)
@pytest.mark.parametrize("tier", ["refresh", "full"])
def test_what_the_line_names_is_picked_whatever_the_tune(
    component: str, words: str, grade: str, tier: str
) -> None:
    part = part_for(component, option_of("four600", tier), shipped("four600"), words)
    assert part is not None
    assert part.grade == grade
