"""What the card may offer to choose from: engine types, duties with their season, components, findings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Protocol

from catalogue.calc.engine import Duty, EngineCatalogue, Tier
from catalogue.calc.money import round_half_up
from catalogue.calc.said import say, to_say
from quotes.calc.ask.request import Unit
from quotes.forms.fields import figure_shown

KM_PER_MILE = 1.609344
"""Kilometres in a mile, by definition."""
CHANGES = {
    "compression": to_say("compression"),
    "cams": to_say("cams"),
    "porting": to_say("porting"),
    "weight": to_say("weight"),
}
Choices = Sequence[tuple[str, str]]


class Class(Protocol):
    """A racing class, as the workshop keeps it or as the sums know it."""

    @property
    def code(self) -> str: ...
    @property
    def name(self) -> str: ...
    @property
    def allows(self) -> frozenset[str]: ...


@dataclass(frozen=True, slots=True)
class Season:
    """A duty's own season, in the unit that its service is counted in."""

    events: int
    amount: str
    unit: Unit
    each: str
    """One meeting's service, in the same unit."""


@dataclass(frozen=True, slots=True)
class Offered:
    """The choices of one card, as pairs of code and name. Component choices wait for the engine type."""

    engine_types: Choices = ()
    duties: Choices = ()
    seasons: dict[str, Season] = field(default_factory=dict)
    tiers: Choices = ()
    components: Choices = ()
    serviced: Choices = ()
    """What is changed at its own interval: nobody is asked for it, and the engine's record may hold it."""
    findings: Choices = ()
    events: Choices = ()
    any_of: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """The components one of which a finding must name."""
    over_revs: frozenset[str] = frozenset()
    """Events of which one asks how far over the limit it was."""
    classes: Choices = ()
    unit: Unit = "mi"
    """The workshop's own unit of distance."""

    def place_choices(self, observed: str) -> Choices:
        """The components that a finding may name, with their names; none where it names none."""
        names = dict(self.components)
        return [(code, names[code]) for code in self.any_of.get(observed, ()) if code in names]


def offered_from(
    engine_types: Choices,
    catalogue: EngineCatalogue | None,
    *,
    type_chosen: bool,
    classes: Iterable[Class] = (),
    distance: Unit = "mi",
) -> Offered:
    """Everything to choose from. `catalogue` None means that the catalogue is empty.

    Duties and tiers are the same for every engine type; components and findings are offered only
    when the type is chosen.
    """
    named = [(rule.code, class_in_words(rule)) for rule in classes]
    if catalogue is None:
        return Offered(engine_types=engine_types, classes=named, unit=distance)
    observed = list(catalogue.findings.values()) if type_chosen else []
    return Offered(
        engine_types=engine_types,
        duties=[(duty.code, duty.name) for duty in catalogue.duties.values()],
        seasons={duty.code: season_of(duty, distance) for duty in catalogue.duties.values()},
        tiers=[(tier.code, tier.name) for tier in _by_rank(catalogue)],
        components=_component_choices(catalogue, serviced=False) if type_chosen else (),
        serviced=_component_choices(catalogue, serviced=True) if type_chosen else (),
        findings=[(found.code, found.name) for found in observed if found.counts_as(event=False)],
        events=[(found.code, found.name) for found in observed if found.is_event],
        any_of={found.code: found.any_of for found in observed if found.any_of},
        over_revs=frozenset(found.code for found in observed if found.pct_over is not None),
        classes=named,
        unit=distance,
    )


def season_of(duty: Duty, distance: Unit) -> Season:
    """The duty's own season: hours for motocross, runs where it is counted in runs, else distance."""
    if duty.season_runs is not None:
        return Season(duty.season_events, str(duty.season_runs), "runs", str(duty.event_runs or ""))
    if duty.basis == "hours_mx" or duty.season_miles is None:
        return Season(duty.season_events, _plain(duty.season_hours), "h", _plain(duty.event_hours))
    factor = KM_PER_MILE if distance == "km" else 1.0
    each = _plain(duty.event_miles * factor) if duty.event_miles else ""
    return Season(duty.season_events, _plain(duty.season_miles * factor), distance, each)


def class_in_words(rule: Class) -> str:
    """The class with what it allows, since a choice must say what choosing it means."""
    if not rule.allows:
        return say("{rule}: as standard, nothing allowed", rule=rule.name)
    allowed = _listed(say(CHANGES[change]) for change in sorted(rule.allows))
    return say("{rule}: {allowed} allowed", rule=rule.name, allowed=allowed)


def _by_rank(catalogue: EngineCatalogue) -> list[Tier]:
    return sorted(catalogue.tiers.values(), key=lambda tier: tier.rank)


def _component_choices(catalogue: EngineCatalogue, *, serviced: bool) -> Choices:
    found = (part for part in catalogue.components.values() if part.service_item == serviced)
    return sorted(((part.code, part.name) for part in found), key=lambda pair: pair[1].casefold())


def _listed(words: Iterable[str]) -> str:
    *first, last = words
    return say("{first} and {last}", first=", ".join(first), last=last) if first else last


def _plain(amount: float) -> str:
    """An amount as one would write it: whole from ten on, one decimal below."""
    shown = round_half_up(Decimal(str(amount)), 0 if amount >= 10 else 1)
    return figure_shown(f"{shown.normalize():f}")
