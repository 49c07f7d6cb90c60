"""Lives that the owner approved on the workshop's own record, laid over those of the catalogue."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from catalogue.calc.engine import Basis, Component, EngineCatalogue, Life


@dataclass(frozen=True, slots=True)
class ApprovedLife:
    """A change that stands. `engine_type` empty: for every type that has the component."""

    component: str
    basis: Basis
    engine_type: str
    low: float
    typical: float
    high: float
    shape: float
    evidence: float
    source: str
    teardowns: frozenset[str]
    """Keys of the strip-downs behind it."""

    def holds_for(self, component: str, basis: Basis, engine_type: str) -> bool:
        """Whether it is about this life of this engine type; an empty type asks for what holds for all."""
        here = self.engine_type in ("", engine_type)
        return here and self.component == component and self.basis == basis


def with_approved(catalogue: EngineCatalogue, approved: Iterable[ApprovedLife]) -> EngineCatalogue:
    """The catalogue with the lives approved for its engine type; of two on one life the later holds.

    How many strip-downs stand behind its lives is counted from them.
    """
    holding = {
        (one.component, one.basis): one
        for one in approved
        if one.engine_type in ("", catalogue.engine_type.code)
        and one.component in catalogue.components
        and one.basis in catalogue.components[one.component].lives
    }
    if not holding:
        return catalogue
    components = dict(catalogue.components)
    for one in holding.values():
        components[one.component] = _with_life(components[one.component], one)
    seen = frozenset[str]().union(*(one.teardowns for one in holding.values()))
    return replace(catalogue, components=components, teardowns_seen=len(seen))


def _with_life(component: Component, approved: ApprovedLife) -> Component:
    life = Life(
        typical=approved.typical,
        low=approved.low,
        high=approved.high,
        shape=approved.shape,
        evidence=approved.evidence,
        source=approved.source,
    )
    return replace(component, lives={**component.lives, approved.basis: life})
