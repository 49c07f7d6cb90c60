"""A tier as a person would read it for one engine type: what it changes and why, what that does to life."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.engine import Component, EngineCatalogue, Tier
from catalogue.calc.numbers import said_figure
from catalogue.calc.said import say, to_say

CAUSES = {
    "inertia": to_say("by revs"),
    "gas": to_say("by pressure"),
    "heat": to_say("by heat"),
    "shifts": to_say("by shifting"),
    "launches": to_say("by starts"),
    "dirt": to_say("by dirt"),
    "time": to_say("by age"),
}
"""How wear by each cause is said."""
ALLOWED = {
    "compression": to_say("more compression"),
    "cams": to_say("other cams"),
    "porting": to_say("ported heads"),
    "weight": to_say("lighter pistons and rods"),
}
EXAMPLES = 6
"""Lives worth an example: those that the tier shortens most."""
PER_CENT = 100
ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Renewed:
    """A component the tier does something to, what, and why."""

    code: str
    name: str
    what: str
    why: str


@dataclass(frozen=True, slots=True)
class LifeThen:
    """A life before and under the tier, at the reference duty, in one unit."""

    code: str
    name: str
    before: float
    after: float
    unit: str


@dataclass(frozen=True, slots=True)
class TierReading:
    """The tier in sentences and lists."""

    changes: tuple[tuple[str, str], ...]
    figures: tuple[tuple[str, str], ...]
    must_allow: tuple[str, ...]
    life: tuple[str, ...]
    examples: tuple[LifeThen, ...]
    renewed: tuple[Renewed, ...]
    if_due: tuple[Renewed, ...]
    reconditioned: tuple[Renewed, ...]
    sent_out: tuple[tuple[str, str, str], ...]
    """Machine work: its code, its name, and how much of it."""
    bench: tuple[tuple[str, str], ...]


def read_tier(catalogue: EngineCatalogue, code: str) -> TierReading:
    """The tier `code` on this engine type. Raises KeyError for a tier that there is not."""
    tier = catalogue.tiers[code]
    return TierReading(
        changes=tuple((say(what.replace("_", " ")), words) for what, words in tier.changes.items()),
        figures=_figures(catalogue, tier),
        must_allow=tuple(say(ALLOWED[change]) for change in ALLOWED if change in tier.breaks),
        life=_life(tier),
        examples=_examples(catalogue, tier),
        renewed=_renewed(catalogue, tier, "renewed", tier.renew),
        if_due=_renewed(catalogue, tier, "renewed if due", tier.renew_if_due),
        reconditioned=_renewed(catalogue, tier, "reconditioned", tier.recondition),
        sent_out=_sent_out(catalogue, tier),
        bench=tuple((step, catalogue.operations[step].name) for step in tier.operations),
    )


def _figures(catalogue: EngineCatalogue, tier: Tier) -> tuple[tuple[str, str], ...]:
    engine = catalogue.engine_type
    ratio = engine.compression_ratio
    revs = engine.rev_limit_rpm
    gain = tier.power_gain_pct
    raised = revs * (1 + tier.rev_limit_delta_pct / PER_CENT)
    power = [engine.crank_power_hp * (1 + pct / PER_CENT) for pct in (gain.low, gain.typical, gain.high)]
    compression = say("as it is, {ratio} to 1", ratio=said_figure(ratio))
    if tier.compression_delta:
        then = said_figure(round(ratio + tier.compression_delta, 1))
        compression = say("from {now} to {then} to 1", now=said_figure(ratio), then=then)
    limit = say("as it is, {revs} a minute", revs=said_figure(revs))
    if tier.rev_limit_delta_pct:
        limit = say("from {now} to {then} a minute", now=said_figure(revs), then=said_figure(round(raised)))
    stronger = say(
        "{now} hp to about {typical} hp, from {low} to {high}: {gain} % up, from {least} to {most}",
        now=said_figure(engine.crank_power_hp),
        low=round(power[0]),
        typical=round(power[1]),
        high=round(power[2]),
        gain=said_figure(gain.typical),
        least=said_figure(gain.low),
        most=said_figure(gain.high),
    )
    return (
        (say("Compression"), compression),
        (say("Rev limit"), limit),
        (say("Power at the crank"), stronger),
    )


def _life(tier: Tier) -> tuple[str, ...]:
    """One sentence for each share of life that is left, causes with the same share together."""
    by_factor: dict[float, list[str]] = {}
    for driver, words in CAUSES.items():
        by_factor.setdefault(tier.life_factors[driver], []).append(words)  # type: ignore[index]
    if list(by_factor) == [1]:
        return (say("Everything lasts as long as before."),)
    return tuple(_lasts(factor, _and(list(map(say, words)))) for factor, words in sorted(by_factor.items()))


def _lasts(factor: float, causes: str) -> str:
    if factor == 1:
        return say("What wears {causes} lasts as long as before.", causes=causes)
    percent = said_figure(round(factor * PER_CENT))
    return say("What wears {causes} lasts {percent} % as long.", causes=causes, percent=percent)


def _and(words: list[str]) -> str:
    if len(words) == 1:
        return words[0]
    return say("{names} and {last}", names=", ".join(words[:-1]), last=words[-1])


def life_share(component: Component, tier: Tier) -> float:
    """Share of its life that a stock part keeps under the tier, severity 1: the shares over the factors."""
    return 1 / sum(share / tier.life_factors[driver] for driver, share in component.drivers.items())


def _examples(catalogue: EngineCatalogue, tier: Tier) -> tuple[LifeThen, ...]:
    """The lives that the tier shortens most, of parts that are judged by their life."""
    judged = [component for component in catalogue.components.values() if component.judged_by == "life"]
    judged = [component for component in judged if not component.service_item]
    shares = sorted((life_share(component, tier), component.code) for component in judged)
    found = []
    for share, code in shares[:EXAMPLES]:
        component = catalogue.components[code]
        if share < 1 - ROUNDING and "miles" in component.lives:
            before = component.lives["miles"].typical
            found.append(LifeThen(code, component.name, before, round(before * share, -1), "miles"))
    return tuple(found)


def _renewed(
    catalogue: EngineCatalogue, tier: Tier, what: str, codes: tuple[str, ...]
) -> tuple[Renewed, ...]:
    found = []
    for code in codes:
        component = catalogue.components[code]
        only_open = code in tier.left_out_unless_opened
        said = f"{what}, if the cases are open anyway" if only_open else what
        found.append(Renewed(code, component.name, said, _why(component, tier, what)))
    return tuple(found)


def _why(component: Component, tier: Tier, what: str) -> str:
    if what == "reconditioned":
        again = component.recondition
        share = PER_CENT if again is None else round(again.life_share * PER_CENT)
        return say(
            "Machine work in place of a new part; it gives back {percent} % of a life.",
            percent=said_figure(share),
        )
    if what == "renewed if due":
        return say("Only where its life, or what it measures, says so.")
    if component.code in tier.performance_grade:
        return say("A race-quality part, for the load that the tier puts on it.")
    if component.service_item:
        return say("Changed at every build.")
    if component.single_use == "yes":
        return say("Never used twice.")
    if component.locks_wheel_or_oils_tyre:
        return say("Rider safety: it {hazard}.", hazard=component.rider_hazards[0])
    if component.judged_by == "life":
        return say("Its life is counted and starts afresh.")
    if component.single_use == "policy":
        return say("Using it again is the workshop's choice; this tier does not.")
    return say("Cheap against opening the engine again.")


def _sent_out(catalogue: EngineCatalogue, tier: Tier) -> tuple[tuple[str, str, str], ...]:
    found = []
    for asked in tier.machine_work:
        work = catalogue.machine_work[asked.code]
        unit = work.unit.replace("_", " ")
        amount = say("{count} by the {unit}", count=work.quantity, unit=unit)
        if asked.share < 1:
            percent = said_figure(round(asked.share * PER_CENT))
            amount = say("about {percent} % of {amount}", percent=percent, amount=amount)
        found.append((asked.code, work.name, amount))
    return tuple(found)
