"""The smallest catalogue and workshop that a sum can be shown on: every value can be replaced by name."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

from catalogue.calc.engine import (
    Band,
    Component,
    EngineCatalogue,
    EngineType,
    LeadTime,
    MachineWork,
    Operation,
    Part,
    Tier,
)
from quotes.calc.shop import (
    ConsumablesRule,
    DepositRule,
    MarkupBand,
    Queue,
    Shop,
    TaxCode,
    TaxComponent,
)

ENGINE_TYPE = EngineType(
    code="bench",
    name="Bench single",
    cylinders=1,
    valves_per_cylinder=4,
    bore_mm=90.0,
    stroke_mm=60.0,
    displacement_cc=382.0,
    compression_ratio=12.0,
    rev_limit_rpm=10000.0,
    power_rpm=8500.0,
    crank_power_hp=45.0,
    rod_length_mm=105.0,
    reciprocating_mass_g=380.0,
    block="separate",
    case_split="vertical",
    gearbox_access="in_cases",
    rod_type="split_plain",
    pieces={"cylinder": 1, "valve": 4},
)

COMPONENT = Component(
    code="any",
    name="any component",
    group="top_end",
    count=1,
    single_use="no",
    consequence_class="session",
    judged_by="measure",
    lives={},
    drivers={"inertia": 1.0},
    weibull_shape=2.5,
    stopping_share=0.1,
    rider_hazards=(),
    access_operations=(),
    access_any_of=(),
    with_operations=(),
    machine_work=(),
    machine_work_piece=None,
    recondition=None,
    companions_on_renewal=(),
    companions_on_damage=(),
    recondition_on_renewal=(),
    comes_with=(),
    inspection_operations=(),
)

OPERATION = Operation(
    code="any",
    name="any work",
    kind="strip",
    hours=Decimal("1.0"),
    requires=(),
    requires_in_chassis=(),
    after=(),
    undo=(),
    components=(),
    consumes=(),
)

PART = Part(
    number="P-1",
    component="any",
    grade="stock",
    name="any part",
    unit="each",
    quantity=1,
    cost=Decimal("8.00"),
    list_price=Decimal("10.00"),
    range_low=Decimal("0.75"),
    range_high=Decimal("1.5"),
    lead=LeadTime(4.0, 15.0),
    supplier="Parts counter",
)

MACHINE_WORK = MachineWork(
    code="any",
    name="any machine work",
    unit="valve",
    quantity=4,
    cost=Decimal("24.00"),
    cost_low=Decimal("15.00"),
    cost_high=Decimal("40.00"),
    lead=LeadTime(6.0, 15.0),
    needs_operations=(),
    components=(),
    vendor="Head shop",
)

SHOP = Shop(
    currency="USD",
    decimals=2,
    labour_rates=dict.fromkeys(("office", "strip", "clean", "inspect", "assemble", "test"), Decimal(110)),
    markup_bands=tuple(
        MarkupBand(Decimal(cost), Decimal(pct))
        for cost, pct in ((0, 100), (10, 65), (50, 45), (150, 33), (400, 25), (1000, 18))
    ),
    cap_at_list=True,
    machine_work_markup_pct=Decimal(15),
    consumables=ConsumablesRule(labour_pct=Decimal(4), least=Decimal(12), most=Decimal(60)),
    deposit=DepositRule(gross_pct=Decimal(50)),
    tax_codes={
        "sales": TaxCode(
            "sales", "S", (TaxComponent("state", Decimal("5.5")), TaxComponent("city", Decimal("1.25")))
        ),
        "exempt": TaxCode("exempt", "E", (), "Repair labour is not taxed here."),
    },
    taxability={"labour": "exempt", "part": "sales", "machine_work": "exempt", "consumables": "sales"},
    prices_include_tax_in_talk=False,
    queue=Queue(bench_hours_a_day=Decimal(6), hours_in_hand=Decimal(0), closed_days=frozenset()),
    quote_validity_days=30,
    limit_without_asking_pct=Decimal(10),
    hours_spread_pct=Decimal(25),
    classes={},
)
"""Markup schedule and rules as they ship (common practice, no source); the tax is invented."""

TIER = Tier(
    code="refresh",
    name="Refresh",
    rank=0,
    purpose="",
    promise="",
    changes={},
    compression_delta=0.0,
    rev_limit_delta_pct=0.0,
    power_gain_pct=Band(0.0, 0.0, 3.0),
    power_note="",
    renew=(),
    renew_if_due=(),
    recondition=(),
    performance_grade=frozenset(),
    operations=(),
    machine_work=(),
    opens_bottom_end=False,
    left_out_unless_opened=frozenset(),
    life_factors={},
    breaks=frozenset(),
)


def operation(code: str, **changes: Any) -> Operation:
    return replace(OPERATION, code=code, name=changes.pop("name", code), **changes)


def component(code: str, **changes: Any) -> Component:
    return replace(COMPONENT, code=code, name=changes.pop("name", code), **changes)


def part(code: str, **changes: Any) -> Part:
    return replace(PART, component=code, **changes)


def machine_work(code: str, **changes: Any) -> MachineWork:
    return replace(MACHINE_WORK, code=code, **changes)


def shop(**changes: Any) -> Shop:
    return replace(SHOP, **changes)


def catalogue(*things: Operation | Component | Part | MachineWork | Tier, **changes: Any) -> EngineCatalogue:
    """A catalogue of these things in this order, for the bench single unless `engine_type` says other."""
    return EngineCatalogue(
        engine_type=changes.pop("engine_type", ENGINE_TYPE),
        currency="USD",
        components={one.code: one for one in things if isinstance(one, Component)},
        operations={one.code: one for one in things if isinstance(one, Operation)},
        machine_work={one.code: one for one in things if isinstance(one, MachineWork)},
        parts={(one.component, one.grade): one for one in things if isinstance(one, Part)},
        tiers={one.code: one for one in things if isinstance(one, Tier)},
        duties={},
        findings={},
        grade_strength={},
        load_laws={},
        life_quantile={},
        **changes,
    )


def tier(**changes: Any) -> Tier:
    return replace(TIER, **changes)
