"""The sample's options put together: sums added up from the lines, tax by group, steps from the price."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.sheet.base_values import Service, Spread
from quotes.calc.sheet.chance_values import HazardShare, LadderStep, Opening
from quotes.calc.sheet.line_values import Line, TaxGroup, WorkStep
from quotes.calc.sheet.values import Option, Range
from tests.documents import sample_facts as facts
from tests.documents.sample_lines import IF_NEEDED, line, lines

NAMES = {"refresh": "Refresh", "mild": "Mild build", "full": "Full power"}
PURPOSES = {
    "refresh": "a sound standard engine: new sealing, fresh fasteners, no more power than new",
    "mild": "more power for club racing with the life nearly kept",
    "full": "most power the class and fuel allow; life is bought by the hour",
}
PROMISES = {
    "refresh": "standard interval, limits of the manual",
    "mild": "about 90 % of standard life at the same use",
    "full": "about half a season of sprint racing before it must be opened",
}
STATE_PCT, LOCAL_PCT = Decimal("6.00"), Decimal("1.25")
SPREAD = {"low": Decimal("0.88"), "typical": Decimal(1), "high": Decimal("1.22")}


def _taxable(all_lines: tuple[Line, ...], code: str) -> Decimal:
    return sum((entry.net for entry in all_lines if entry.tax_code == code), ZERO)


def _groups(all_lines: tuple[Line, ...]) -> tuple[TaxGroup, ...]:
    sales = _taxable(all_lines, "sales")
    tax = round_half_up(sales * (STATE_PCT + LOCAL_PCT) / 100)
    local = round_half_up(sales * LOCAL_PCT / 100)
    return (
        TaxGroup(
            code="sales",
            category="S",
            rate_pct=STATE_PCT + LOCAL_PCT,
            taxable=sales,
            tax=tax,
            components=(("State", STATE_PCT, tax - local), ("Local", LOCAL_PCT, local)),
        ),
        TaxGroup(
            code="exempt",
            category="E",
            rate_pct=ZERO,
            taxable=_taxable(all_lines, "exempt"),
            tax=ZERO,
            components=(),
            reason="Repair labour stated apart is not taxed.",
        ),
    )


def _spreads(all_lines: tuple[Line, ...]) -> tuple[Spread, Spread, Spread]:
    net, tax = {}, {}
    for which, factor in SPREAD.items():
        sales = round_half_up(_taxable(all_lines, "sales") * factor)
        net[which] = sales + round_half_up(_taxable(all_lines, "exempt") * factor)
        tax[which] = round_half_up(sales * (STATE_PCT + LOCAL_PCT) / 100)
    gross = {which: net[which] + tax[which] for which in SPREAD}
    return Spread(**net), Spread(**tax), Spread(**gross)


def _ladder(tier: str, gross: Decimal) -> tuple[LadderStep, ...]:
    steps, before = [], ZERO
    for number, (names, apart, chance, is_option) in enumerate(facts.LADDERS[tier], start=1):
        price = gross + Decimal(apart)
        steps.append(
            LadderStep(
                number=number,
                adds=tuple(name.lower().replace(" ", "_") for name in names),
                names=names,
                more=price - before if number > 1 else ZERO,
                gross=price,
                chance=chance,
                is_option=is_option,
            )
        )
        before = price
    return tuple(steps)


def sample_option(tier: str) -> Option:
    """One tier of the sample, before the strip-down."""
    all_lines = lines(tier)
    net, tax, gross = _spreads(all_lines)
    labour = tuple(entry for entry in all_lines if entry.kind == "labour")
    low, typical, high = facts.GAINS[tier]
    due = facts.falls_due(tier)[0]
    renewed = {reason.component: reason for reason in facts.RENEWED}
    extra = {"refresh": (), "mild": (facts.CAMS,), "full": (facts.CAMS, facts.RODS)}[tier]
    left = (facts.MAINS, facts.VALVES) if tier == "full" else (facts.PISTON, facts.MAINS, facts.VALVES)
    return Option(
        tier=tier,
        name=NAMES[tier],
        purpose=PURPOSES[tier],
        promise=PROMISES[tier],
        tune=tier,
        net=net,
        tax=tax,
        gross=gross,
        tax_groups=_groups(all_lines),
        hours=sum((entry.quantity for entry in labour), ZERO),
        operations=tuple(entry.code for entry in labour),
        work=tuple(
            WorkStep(code=entry.code, name=entry.description, kind="assemble", hours=entry.quantity)
            for entry in labour
        ),
        shared_hours_saved=Decimal("8.4"),
        lines=all_lines,
        renewed=renewed | {reason.component: reason for reason in extra},
        reconditioned={"valve_seat": facts.SEATS_CUT},
        offered={"cam_chain_tensioner": facts.TENSIONER},
        left={risk.component: risk for risk in left},
        if_needed=tuple(line(row) for row in IF_NEEDED),
        chance=facts.CHANCES[tier],
        wheel_lock=facts.WHEEL[tier],
        where_the_chance_goes=tuple(
            HazardShare(name=name, state=state, stops_in_100=share)
            for name, state, share in facts.SHARES[tier]
        ),
        attention=("Club open does not allow race cams.",) if tier == "full" else (),
        breaks_class=("cams",) if tier == "full" else (),
        good_for=Service(amount=due.amount, unit=due.unit),
        good_for_reason=f"{due.name} reaches its life then.",
        openings=(Opening(amount=1340, unit="mi", sentence="At 1,340 miles new valve springs: a top end."),)
        if tier == "full"
        else (),
        first_due=due,
        power_gain_pct=Range(low=low, typical=typical, high=high),
        power_note="what comes back is lost power" if tier == "refresh" else "expected, not promised",
        cost_per_season=round_half_up(gross.typical / Decimal(str(due.seasons)), 0),
        cost_per_unit=round_half_up(gross.typical / Decimal(str(due.amount))),
        cost_unit="mi",
        expected_loss=None,
        deposit=round_half_up(gross.typical / 2),
        ready=facts.READY[tier],
        against=tuple(facts.against(tier, other) for other in NAMES if other != tier),
        ladder=_ladder(tier, gross.typical),
        notes=("Your aim can't be reached this way; this is the best it gives.",) if tier == "full" else (),
    )
