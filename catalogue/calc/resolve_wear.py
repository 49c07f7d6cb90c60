"""Components of one engine type: lives, companions, ways in, and the level below renewal."""

from __future__ import annotations

from functools import partial

from catalogue.calc.engine import Component, Life, Recondition
from catalogue.calc.rows.wear import ComponentRow, ReachRow, ReconditionRow
from catalogue.calc.settled import SettledRows


def components(settled: SettledRows) -> dict[str, Component]:
    """The components this engine type has, in catalogue order."""
    return {
        row.code: _component(row, settled)
        for row in settled.rows.components
        if row.code in settled.components
    }


def _component(row: ComponentRow, settled: SettledRows) -> Component:
    reach = reach_of(row, settled)
    return _itself(row, settled)(
        access_operations=settled.only_operations(reach.access_operations),
        access_any_of=ways_in(reach, settled),
        with_operations=settled.only_operations(reach.with_operations),
        machine_work=settled.only_machine_work(reach.machine_work),
        machine_work_piece=reach.machine_work_piece,
        recondition=_recondition(reach.recondition, settled),
        companions_on_renewal=settled.only_components(row.companions_on_renewal),
        companions_on_damage=settled.only_components(row.companions_on_damage),
        recondition_on_renewal=_reconditioned_with(row, settled),
        comes_with=_comes_with(row, settled),
        inspection_operations=settled.only_operations(row.inspection_operations),
    )


def _itself(row: ComponentRow, settled: SettledRows) -> partial[Component]:
    """All of a component but what it has to do with others."""
    basis, share = settled.rows.basis, row.stopping_share
    return partial(
        Component,
        code=row.code,
        name=row.name,
        group=row.group,
        count=row.count[settled.engine_type.code],
        single_use=row.single_use,
        consequence_class=row.consequence_class,
        judged_by=(settled.pressed_up_crank and row.judged_by_if_one_piece_roller_rod) or row.judged_by,
        lives={unit: Life(life.typical, life.low, life.high) for unit, life in row.lives.items()},
        drivers=dict(row.drivers),
        weibull_shape=row.weibull_shape,
        stopping_share=basis.stopping_share_by_class[row.consequence_class] if share is None else share,
        rider_hazards=row.rider_hazards,
        failure_modes=row.failure_modes,
        note=settled.note(row.note),
        life_source=settled.source(row.life_source),
        life_confidence=row.life_confidence,
        evidence_r0=basis.evidence_r0 if row.evidence_r0 is None else row.evidence_r0,
        service_item=row.service_item,
    )


def reach_of(row: ComponentRow, settled: SettledRows) -> ReachRow:
    """Its ways in; a pressed-up crank replaces them, the level below renewal included."""
    if settled.pressed_up_crank and row.reach_if_one_piece_roller_rod is not None:
        return row.reach_if_one_piece_roller_rod
    return row.reach


def ways_in(reach: ReachRow, settled: SettledRows) -> tuple[tuple[str, ...], ...]:
    """The ways in of which one is needed; a way over an operation this type lacks is none."""
    return tuple(way for way in reach.access_any_of if settled.operations.issuperset(way))


def _recondition(row: ReconditionRow | None, settled: SettledRows) -> Recondition | None:
    """None where this engine type lacks any of the machine work it takes."""
    if row is None or not settled.machine_work.issuperset(row.machine_work):
        return None
    return Recondition(row.machine_work, row.machine_work_quantity, row.life_share, row.max_times)


def can_be_reconditioned(code: str, settled: SettledRows) -> bool:
    """Whether a component of this type has a level below renewal."""
    row = next((row for row in settled.rows.components if row.code == code), None)
    return row is not None and _recondition(reach_of(row, settled).recondition, settled) is not None


def _reconditioned_with(row: ComponentRow, settled: SettledRows) -> tuple[str, ...]:
    present = settled.only_components(row.recondition_on_renewal)
    return tuple(code for code in present if can_be_reconditioned(code, settled))


def _comes_with(row: ComponentRow, settled: SettledRows) -> tuple[str, ...]:
    besides = row.comes_with_if_one_piece_roller_rod if settled.pressed_up_crank else ()
    return settled.only_components((*row.comes_with, *besides))
