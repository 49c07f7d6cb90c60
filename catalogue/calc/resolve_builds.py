"""Tiers, duties, findings and events, settled for one engine type."""

from __future__ import annotations

from dataclasses import replace

from catalogue.calc.engine import Band, Duty, Finding, Tier, TierMachineWork
from catalogue.calc.resolve_wear import can_be_reconditioned
from catalogue.calc.rows.engines import DutyRow, TierRow
from catalogue.calc.rows.wear import EventRow, FindingRow
from catalogue.calc.said import say
from catalogue.calc.settled import SettledRows


def tiers(settled: SettledRows) -> dict[str, Tier]:
    """Every tier, from the plainest to the boldest."""
    ranked = sorted(settled.rows.tiers, key=lambda row: (row.rank, row.code))
    return {row.code: _tier(row, settled) for row in ranked}


def _tier(row: TierRow, settled: SettledRows) -> Tier:
    gain = row.power_gain_pct
    return Tier(
        code=row.code,
        name=row.name,
        rank=row.rank,
        purpose=row.purpose,
        promise=row.promise,
        changes={**row.changes, **row.changes_by_type.get(settled.engine_type.code, {})},
        compression_delta=row.compression_delta,
        rev_limit_delta_pct=row.rev_limit_delta_pct,
        power_gain_pct=Band(gain.low, gain.typical, gain.high),
        power_note=settled.note(row.power_note),
        renew=settled.only_components(row.renew),
        renew_if_due=settled.only_components(row.renew_if_due),
        recondition=_reconditioned(row, settled),
        performance_grade=frozenset(
            code for code in row.performance_grade if (code, "performance") in settled.priced
        ),
        operations=_tier_operations(row, settled),
        machine_work=_tier_machine_work(row, settled),
        opens_bottom_end=row.opens_bottom_end,
        left_out_unless_opened=_left_out(row, settled),
        life_factors=dict(row.life_factors),
        breaks=frozenset(row.breaks),
        source=settled.source(row.source),
    )


def _reconditioned(row: TierRow, settled: SettledRows) -> tuple[str, ...]:
    present = settled.only_components(row.recondition)
    return tuple(code for code in present if can_be_reconditioned(code, settled))


def _tier_operations(row: TierRow, settled: SettledRows) -> tuple[str, ...]:
    separate = row.operations_if_separate_block if settled.engine_type.block == "separate" else ()
    return settled.only_operations((*row.operations, *separate))


def _tier_machine_work(row: TierRow, settled: SettledRows) -> tuple[TierMachineWork, ...]:
    return tuple(
        TierMachineWork(asked.code, asked.share)
        for asked in row.machine_work
        if asked.code in settled.machine_work and asked.only_rod_type in (None, settled.engine_type.rod_type)
    )


def _left_out(row: TierRow, settled: SettledRows) -> frozenset[str]:
    left = row.left_out_unless_opened
    if left is None or left.block != settled.engine_type.block:
        return frozenset()
    return frozenset(settled.only_components(left.components))


def duties(settled: SettledRows) -> dict[str, Duty]:
    """Every duty; what oil it takes depends on what the gearbox of the engine type runs in."""
    return {row.code: _duty(row, settled) for row in settled.rows.duties}


def _duty(row: DutyRow, settled: SettledRows) -> Duty:
    event, season = row.event, row.season
    shared = settled.engine_type.gearbox_oil == "engine"
    return Duty(
        code=row.code,
        name=row.name,
        basis=row.basis,
        severity=dict(row.severity),
        event_miles=event.miles.typical if event.miles else None,
        event_hours=event.hours.typical,
        season_events=season.events or 1,
        season_miles=season.miles.typical if season.miles else None,
        season_hours=season.hours.typical,
        event_runs=event.runs,
        season_runs=season.runs,
        matters=row.matters,
        oil=row.oil_with_gearbox if shared else row.oil_without_gearbox,
        oil_why=row.oil_with_gearbox_why if shared else row.oil_without_gearbox_why,
        source=settled.source(row.source),
    )


def findings(settled: SettledRows) -> dict[str, Finding]:
    """Findings and events together, by code.

    A finding on a component that this type does not have, or on another type of rod, can't be made.
    An event that is the same as a finding of the same code is that one entry.
    """
    found = {row.code: _finding(row, settled) for row in settled.rows.findings if _can_be_found(row, settled)}
    same = {row.code: row for row in settled.rows.findings}
    told = {}
    for event in settled.rows.events:
        if event.same_as_finding is None:
            told[event.code] = _event(event, settled)
        elif _can_be_found(same[event.same_as_finding], settled):
            told[event.code] = _same(event, same[event.same_as_finding], settled)
    return {**found, **told}


def _can_be_found(row: FindingRow, settled: SettledRows) -> bool:
    named = row.any_of or (row.component,)
    return row.only_rod_type in (None, settled.engine_type.rod_type) and bool(settled.only_components(named))


def _finding(row: FindingRow, settled: SettledRows) -> Finding:
    instead = row.if_one_piece_roller_rod if settled.pressed_up_crank else None
    return Finding(
        code=row.code,
        name=row.name,
        component=row.component,
        grade=row.grade,
        cause=row.cause,
        any_of=settled.only_components(row.any_of),
        renew=settled.only_components(row.renew if instead is None else instead.renew),
        inspect_operations=settled.only_operations(row.inspect_operations),
        machine_work=settled.only_machine_work(row.machine_work if instead is None else instead.machine_work),
        machine_work_if_needed=settled.only_machine_work(row.machine_work_if_needed),
        opens=row.opens if row.opens in settled.operations else None,
        tell_customer=row.tell_customer,
        note=settled.note(_note(row, settled)),
        source=settled.source(row.source),
    )


def _note(row: FindingRow, settled: SettledRows) -> str:
    """Its note, and what a hard hit makes us look at besides."""
    names = {step.code: step.name for step in settled.rows.operations}
    looked_at = ", ".join(names[code] for code in settled.only_operations(row.inspect_if_hard_hit))
    after = say("After a hard hit also: {operations}.", operations=looked_at) if looked_at else ""
    return " ".join(part for part in (row.note, after) if part)


def _event(row: EventRow, settled: SettledRows) -> Finding:
    instead = row.if_one_piece_roller_rod if settled.pressed_up_crank else None
    renewed = settled.only_components(row.renew if instead is None else instead.renew)
    return Finding(
        code=row.code,
        name=row.name,
        component=None,
        grade="renew" if renewed else "inspect",
        cause="",
        any_of=(),
        renew=renewed,
        inspect_operations=settled.only_operations(row.inspect_operations),
        machine_work=settled.only_machine_work(row.machine_work if instead is None else instead.machine_work),
        machine_work_if_needed=settled.only_machine_work(row.machine_work_if_needed),
        opens=None,
        is_event=True,
        pct_over=(row.pct_over.low, row.pct_over.high) if row.pct_over else None,
        note=settled.note(row.note),
        source=settled.source(row.source),
    )


def _same(event: EventRow, finding: FindingRow, settled: SettledRows) -> Finding:
    both = event.code == finding.code
    return replace(
        _finding(finding, settled), code=event.code, name=event.name, is_event=True, also_finding=both
    )
