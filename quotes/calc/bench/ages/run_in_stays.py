"""What a part that carries its own age has run: the stretches of its engines while it was in them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.ask.request import Segment, Unit
from quotes.calc.bench.ages.stays import PartLife, Stay
from quotes.calc.life.units import CannotConvert, per_basis


def service_in(history: Sequence[Segment], unit: Unit, catalogue: EngineCatalogue) -> Decimal:
    """All stretches together in one unit, by their duties as the sums do it; CannotConvert."""
    return sum((segment.amount * _factor(segment, unit, catalogue) for segment in history), ZERO)


def _factor(segment: Segment, unit: Unit, catalogue: EngineCatalogue) -> Decimal:
    if segment.unit == unit:
        return Decimal(1)
    duty = catalogue.duties[segment.duty]
    return Decimal(str(per_basis(segment.unit, duty) / per_basis(unit, duty)))


def ran_in(stay: Stay, catalogue: EngineCatalogue) -> tuple[Segment, ...] | None:
    """What a part ran in one stay, by the duty and tune that its engine ran then.

    None where that can't be told: the engine's service is not known, or is in units that don't compare.
    """
    if stay.upto is None:
        return None
    try:
        cut = list(_cut(stay, stay.upto, catalogue))
        known = service_in(stay.history, stay.unit, catalogue)
    except CannotConvert:
        return None
    beyond = stay.upto - max(known, stay.start)
    if beyond > 0:
        last = stay.history[-1] if stay.history else None
        duty = last.duty if last else stay.duty
        if not duty:
            return None
        cut.append(Segment(amount=beyond, unit=stay.unit, duty=duty, tier=last.tier if last else stay.tier))
    return tuple(cut)


def _cut(stay: Stay, upto: Decimal, catalogue: EngineCatalogue) -> Iterator[Segment]:
    """The engine's stretches between the two ends of a stay, each cut to what lies inside."""
    done = ZERO
    for segment in stay.history:
        factor = _factor(segment, stay.unit, catalogue)
        begun, done = done, done + segment.amount * factor
        inside = min(done, upto) - max(begun, stay.start)
        if inside <= 0:
            continue
        whole = inside == done - begun
        amount = segment.amount if whole else inside if factor == 1 else round_half_up(inside / factor)
        yield segment.model_copy(update={"amount": amount, **_days(segment, stay)})


def _days(segment: Segment, stay: Stay) -> dict[str, date | None]:
    """The days of a stretch, as far as the part was in the engine then."""
    if segment.start is None or segment.end is None:
        return {"start": None, "end": None}
    start = max(segment.start, stay.from_on)
    end = min(segment.end, stay.until_on) if stay.until_on else segment.end
    return {"start": start, "end": end} if start <= end else {"start": None, "end": None}


def history_of(life: PartLife, catalogue: EngineCatalogue) -> tuple[Segment, ...] | None:
    """All that a part has run and that counts, wherever it was; None where any of it is not known."""
    history = life.before
    for stay in life.stays:
        ran = ran_in(stay, catalogue)
        if history is None or ran is None:
            return None
        history = (*history, *ran)
        if stay.counts_for is not None:
            history = tuple(_less(segment, stay.counts_for) for segment in history)
    return history


def _less(segment: Segment, share: Decimal) -> Segment:
    """A stretch as it counts for a part that was reconditioned since; its days say nothing any more."""
    amount = round_half_up(segment.amount * share)
    return segment.model_copy(update={"amount": amount, "start": None, "end": None})
