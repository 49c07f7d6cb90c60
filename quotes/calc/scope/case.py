"""One tier asked of one engine: everything that the scope is decided from, worked out once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from catalogue.calc.engine import Component, Duty, EngineCatalogue, Grade, Part, Tier
from quotes.calc.ask.request import Edits, Request
from quotes.calc.life.clock import Used, fitted_tier, used_shares
from quotes.calc.life.draws import Fitted
from quotes.calc.life.horizon import leg
from quotes.calc.life.stretches import grade_in
from quotes.calc.life.units import UNITS_OF_BASIS, per_basis, season
from quotes.calc.life.wear import (
    Wear,
    age_of_peak_hazard,
    characteristic_life,
    load_strength,
    stopping_share,
    wear_rate,
)
from quotes.calc.money.priced_parts import PricedParts
from quotes.calc.shop import Shop

LEFT, DONE, NEW = range(3)


@dataclass(frozen=True, slots=True)
class Levels:
    """What becomes of one component: left as it is, reconditioned (where that helps), or new."""

    left: Wear
    reconditioned: Wear | None
    new: Wear
    beyond_known: bool
    """Its age is past the peak of the hazard and was capped there."""


@dataclass(frozen=True)
class Case:
    """A tier asked of an engine. Uses are in the unit of the planned duty's basis."""

    request: Request
    catalogue: EngineCatalogue
    shop: Shop
    tier: Tier
    tune: Tier
    """The tune that the option is judged on."""
    fitted: Tier
    duty: Duty
    use: float
    used: Mapping[str, Used]
    laws: Mapping[str, tuple[Wear, Wear]] | None = None
    """At an opening of a season: the wear laws of what is in each place by then, and of a new article."""
    priced: PricedParts = field(default_factory=PricedParts, compare=False, repr=False)
    """Shared by all cases of one request."""

    @property
    def edits(self) -> Edits:
        return self.request.edits.get(self.tier.code, _NO_EDITS)

    @cached_property
    def include(self) -> frozenset[str]:
        """Components that were asked for, whatever the sums say."""
        return frozenset(self.request.include) | frozenset(self.edits.include)

    @cached_property
    def leave(self) -> frozenset[str]:
        """Components that are to stay as they are."""
        return (frozenset(self.request.leave) | frozenset(self.edits.leave)) - frozenset(self.edits.include)

    @cached_property
    def refused(self) -> Mapping[str, str]:
        """Components left against advice, with who signed for it."""
        return {refusal.component: refusal.signed_by for refusal in self.request.refusals}

    @property
    def adds_tune(self) -> bool:
        """Whether this tier changes more than is fitted already."""
        return self.tier.rank > self.fitted.rank

    @cached_property
    def levels(self) -> Mapping[str, Levels]:
        """The three levels of every component that counts in the hazard."""
        return {
            code: self._levels_of(component)
            for code, component in self.catalogue.components.items()
            if not component.service_item
        }

    @cached_property
    def fitted_levels(self) -> Mapping[str, tuple[Fitted, Fitted, Fitted]]:
        """Every component as it goes into a service: left, reconditioned (else as left) and new."""
        found: dict[str, tuple[Fitted, Fitted, Fitted]] = {}
        for code, each in self.levels.items():
            left = Fitted(each.left, "kept")
            done = left if each.reconditioned is None else Fitted(each.reconditioned, "kept")
            found[code] = left, done, Fitted(each.new, "new")
        return found

    @cached_property
    def riders(self) -> tuple[str, ...]:
        """Components that can lock the wheel or put oil or coolant on the tyre."""
        components = self.catalogue.components
        return tuple(code for code in self.levels if components[code].locks_wheel_or_oils_tyre)

    @cached_property
    def left_wears(self) -> Mapping[str, Wear]:
        return {code: levels.left for code, levels in self.levels.items()}

    @cached_property
    def new_wears(self) -> Mapping[str, Wear]:
        return {code: levels.new for code, levels in self.levels.items()}

    @cached_property
    def leg(self) -> float:
        """Use until the engine is opened again inside the planned service; the whole of it at most."""
        return leg(self.new_wears, self.catalogue, self.shop, self.use)

    def part(self, component: str) -> Part | None:
        """The article bought to renew a component: performance grade where the tune asks for it."""
        parts = self.catalogue.parts
        return parts.get((component, grade_in(self.tune, component))) or parts.get((component, "stock"))

    def wear(self, component: str, share: float, grade: Grade) -> Wear:
        """The wear law of a component at an age, fitted in a grade, in this option's tune."""
        return wear_at(
            self.catalogue, self.request, component, share, grade=grade, tune=self.tune, duty=self.duty
        )

    def _levels_of(self, component: Component) -> Levels:
        code = component.code
        share = self.used[code].share
        now, new = self._laws_of(code)
        peak = age_of_peak_hazard(new.eta, new.shape, new.evidence)
        left = now.aged(min(share, peak / new.life) * now.life)
        back = None
        if component.recondition is not None and self._may_recondition(component):
            back = now.aged(min(share, 1.0 - component.recondition.life_share) * now.life)
        return Levels(left, back, new, beyond_known=share > peak / new.life)

    def _laws_of(self, code: str) -> tuple[Wear, Wear]:
        """The wear laws of what is fitted in a place, its age aside, and of a new article."""
        if self.laws is not None:
            return self.laws[code]
        now = self.wear(code, 0.0, grade_in(self.fitted, code))
        return now, self.wear(code, 0.0, grade_in(self.tune, code))

    def _may_recondition(self, component: Component) -> bool:
        recondition = component.recondition
        if recondition is None or any(
            work not in self.catalogue.machine_work for work in recondition.machine_work
        ):
            return False
        return self.request.engine.cycles_of(component.code) < recondition.max_times


_NO_EDITS = Edits()


def wear_at(
    catalogue: EngineCatalogue,
    request: Request,
    code: str,
    share: float,
    *,
    grade: Grade,
    tune: Tier,
    duty: Duty,
) -> Wear:
    """The wear law of a component that has used `share` of its life, run on in a tune and duty."""
    component = catalogue.components[code]
    life = component.lives[duty.basis].typical
    strength = load_strength(catalogue, code, grade)
    return Wear(
        age=share * life,
        rate=wear_rate(component, duty, tune, strength, catalogue.load_laws),
        eta=characteristic_life(life, catalogue.life_quantile[duty.basis], component.shape_on(duty.basis)),
        shape=component.shape_on(duty.basis),
        evidence=component.evidence_on(duty.basis),
        stopping=stopping_share(component, request.checks),
        life=life,
    )


def planned_use(request: Request, duty: Duty) -> float:
    """The planned service in the duty's basis unit: as asked, by events, or the duty's own season."""
    planned = request.planned
    if planned.amount is not None:
        unit = planned.unit or UNITS_OF_BASIS[duty.basis]
        return float(planned.amount) * per_basis(unit, duty)
    if planned.events is not None:
        return planned.events * (season(duty) / duty.season_events)
    return season(duty)


def unrestricted(case: Case) -> Case:
    """The same case with nothing left by hand."""
    edits = dict(case.request.edits)
    edits[case.tier.code] = case.edits.model_copy(update={"leave": ()})
    request = case.request.model_copy(update={"leave": (), "edits": edits})
    return replace(case, request=request)


def make_case(
    request: Request, catalogue: EngineCatalogue, shop: Shop, tier: str, priced: PricedParts | None = None
) -> Case:
    """The case of one tier; the request must have been found without fault."""
    asked = catalogue.tiers[tier]
    fitted = fitted_tier(request, catalogue)
    duty = catalogue.duties[request.planned.duty]
    return Case(
        request=request,
        catalogue=catalogue,
        shop=shop,
        tier=asked,
        tune=max(asked, fitted, key=lambda each: each.rank),
        fitted=fitted,
        duty=duty,
        use=planned_use(request, duty),
        used=used_shares(request, catalogue),
        priced=priced or PricedParts(),
    )
