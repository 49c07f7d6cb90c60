"""The work of a build by the clock: what was clocked and not quoted, and what fixed prices hold already."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from decimal import Decimal

from quotes.calc.bench.again.fixed_price import holds_its_work, work_of_renewing
from quotes.calc.invoice.clocked import ClockRates
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.sheet.line_values import WorkStep
from quotes.calc.sheet.values import Option
from quotes.models import Acceptance, ExtraWork, Workshop
from quotes.queries.engines import known_catalogue
from quotes.queries.workshop import labour_rates, taxability


def clock_rates(
    build: Acceptance,
    option: Option,
    fixed: Collection[str],
    clocked: Mapping[str, Decimal],
    workshop: Workshop,
    engine_type: str,
) -> ClockRates:
    """What the build's hours are priced with; `fixed` are components whose work has its price already."""
    return ClockRates(
        quoted=option.work,
        others=clocked_unquoted(option, clocked, engine_type),
        labour=labour_rates(),
        tax_code=taxability(workshop)["labour"],
        paid_otherwise=_in_fixed_prices(build, option, fixed, clocked, workshop, engine_type),
    )


def clocked_unquoted(option: Option, clocked: Mapping[str, Decimal], engine_type: str) -> dict[str, WorkStep]:
    """Operations of the catalogue that were clocked and not quoted; one it no longer has is other work."""
    strange = _strange(option, clocked)
    catalogue = known_catalogue(engine_type) if strange else None
    known = catalogue.operations if catalogue else {}
    return {
        code: WorkStep(code=code, name=known[code].name, kind=known[code].kind, hours=known[code].hours)
        for code in strange
        if code in known
    }


def _strange(option: Option, clocked: Mapping[str, Decimal]) -> Sequence[str]:
    quoted = {step.code for step in option.work}
    return [code for code in clocked if code and code not in quoted]


def fixed_components(build: Acceptance, extra_work: Iterable[ExtraWork]) -> frozenset[str]:
    """Components of extras ticked at the yes, and of extra work at hours that are agreed."""
    fixed = set(build.extras)
    for row in extra_work:
        if row.is_agreed and holds_its_work(DraftLine.model_validate(line) for line in row.lines):
            fixed |= set(row.components)
    return frozenset(fixed)


def _in_fixed_prices(
    build: Acceptance,
    option: Option,
    fixed: Collection[str],
    clocked: Mapping[str, Decimal],
    workshop: Workshop,
    engine_type: str,
) -> Collection[str]:
    """Operations that renewing those components brings along."""
    catalogue = known_catalogue(engine_type) if fixed and _strange(option, clocked) else None
    if catalogue is None:
        return ()
    return work_of_renewing(
        fixed,
        option,
        catalogue,
        in_chassis=build.revision.request.get("engine", {}).get("delivered") == "in_chassis",
        policy_parts=workshop.renew_policy_parts,
    )
