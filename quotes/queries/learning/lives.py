"""What stands of each life, what the evidence would make of it, and what the owner decided so far."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from catalogue.calc.approved_lives import with_approved
from catalogue.calc.engine import Basis, EngineCatalogue
from catalogue.models import LifeChange
from catalogue.queries import catalogue_without_changes, engine_type_choices
from catalogue.queries.lives import as_approved, standing_changes
from quotes.calc.ask.fault import BadRequest
from quotes.calc.learning.law import LifeLaw, catalogue_weight, law_of
from quotes.calc.learning.proposal import About, Proposal, Rule, propose, propose_by_likelihood
from quotes.calc.learning.seen import Counts, SetSeen, counting, counts_of
from quotes.queries.learning.rows import LifeKey, all_seen


@dataclass(frozen=True)
class Life:
    """One life of one component, of one engine type or of every one, with all that was seen of it."""

    about: About
    rows: tuple[SetSeen, ...]
    standing: LifeChange | None
    catalogue: LifeLaw
    before: LifeLaw
    """As it stands now, with what was approved."""
    types: Mapping[str, str]
    """Engine types that have it, by code."""
    replaces: tuple[str, ...] = ()
    """Engine types whose own change would give way to one for every type."""

    @property
    def counting(self) -> tuple[SetSeen, ...]:
        return counting(self.rows)

    @cached_property
    def counted(self) -> frozenset[str]:
        """Keys of the evidence that the standing change counts already."""
        return frozenset(self.standing.counted if self.standing else ())

    @property
    def counts(self) -> Counts:
        """Of all evidence that counts, whether a change has counted it already or not."""
        return counts_of(self.counting)

    @property
    def held(self) -> int:
        """Rows that are put aside."""
        return len(self.rows) - len(self.counting)

    @property
    def withdrawn_since(self) -> int:
        """Rows that the standing change counts and that were put aside afterwards."""
        return sum(row.key in self.counted for row in self.rows if row.put_aside)

    @cached_property
    def proposal(self) -> Proposal | None:
        """What new evidence makes of the life that stands; None where there is none."""
        new = [row for row in self.rows if row.key not in self.counted]
        return propose(self.about, new, catalogue=self.catalogue, before=self.before)

    @cached_property
    def by_likelihood(self) -> Proposal | BadRequest | None:
        """The fit to all evidence, or why there is none; None below ten failures, or once it stands."""
        if self.standing and self.standing.rule == "likelihood" and self.proposal is None:
            return None
        try:
            return propose_by_likelihood(self.about, self.rows, catalogue=self.catalogue, before=self.before)
        except BadRequest as error:
            return error

    def proposed(self, rule: Rule) -> Proposal | None:
        """The proposal that a press is about."""
        if rule == "learnt":
            return self.proposal
        return None if isinstance(self.by_likelihood, BadRequest) else self.by_likelihood

    @property
    def weight_now(self) -> float:
        """How much of the life that stands is the catalogue's."""
        return catalogue_weight(self.catalogue, self.before)


def lives_with_evidence() -> list[Life]:
    """Every life that something was seen of, all engine types together, in the catalogue's order."""
    standing = standing_changes()
    known = _Components()
    found = [
        life
        for key, rows in all_seen().items()
        if (life := _life(key, rows, standing, known, "")) is not None
    ]
    return sorted(found, key=lambda life: (known.place(life.about.component), life.about.basis))


def life_of(component: str, basis: Basis, engine_type: str = "") -> Life | None:
    """One life, of one engine type or of every one; None where the catalogue has no such life."""
    rows = all_seen(component).get((component, basis), [])
    return _life((component, basis), rows, standing_changes(), _Components(), engine_type)


class _Components:
    """Which engine type shows what a component is: the first that has it, for lives are the same for all."""

    def __init__(self) -> None:
        self.types = dict(engine_type_choices())
        self._catalogues: dict[str, EngineCatalogue] = {}

    def catalogue(self, code: str) -> EngineCatalogue:
        if code not in self._catalogues:
            self._catalogues[code] = catalogue_without_changes(code)
        return self._catalogues[code]

    def types_having(self, component: str, basis: Basis) -> dict[str, str]:
        """Engine types with the component and a life of it on the basis; what has an interval has no life."""
        return {
            code: name
            for code, name in self.types.items()
            if (known := self.catalogue(code).components.get(component)) is not None
            and basis in known.lives
            and not known.service_item
        }

    def having(self, component: str, basis: Basis, engine_type: str) -> EngineCatalogue | None:
        """The catalogue of the type asked for, or of the first that has the life."""
        types = self.types_having(component, basis)
        code = engine_type or next(iter(types), "")
        return self.catalogue(code) if code in types else None

    def place(self, component: str) -> int:
        for code in self.types:
            if component in (codes := list(self.catalogue(code).components)):
                return codes.index(component)
        return len(self.types)


def _life(
    key: LifeKey,
    rows: Iterable[SetSeen],
    standing: Sequence[LifeChange],
    known: _Components,
    engine_type: str,
) -> Life | None:
    component, basis = key
    catalogue = known.having(component, basis, engine_type)
    if catalogue is None:
        return None
    about = About(component, catalogue.components[component].name, basis, engine_type)
    if engine_type:
        about = About(component, about.name, basis, engine_type, known.types[engine_type])
    holding = [
        row for row in standing if (row.component, row.basis) == key and row.engine_type in ("", engine_type)
    ]
    changed = with_approved(catalogue, map(as_approved, holding))
    quantile = catalogue.life_quantile[basis]
    return Life(
        about=about,
        rows=tuple(row for row in rows if engine_type in ("", row.engine_type)),
        standing=holding[-1] if holding else None,
        catalogue=law_of(catalogue.components[component], basis, quantile),
        before=law_of(changed.components[component], basis, quantile),
        types=known.types_having(component, basis),
        replaces=() if engine_type else tuple(_own_changes(key, standing, known.types)),
    )


def _own_changes(key: LifeKey, standing: Sequence[LifeChange], types: Mapping[str, str]) -> Iterable[str]:
    """Names of the engine types with a standing change of their own, later than any for every type."""
    rows = [row for row in standing if (row.component, row.basis) == key]
    for_all = max((row.pk for row in rows if not row.engine_type), default=0)
    own = dict.fromkeys(row.engine_type for row in rows if row.engine_type and row.pk > for_all)
    return (types.get(code, code) for code in own)
