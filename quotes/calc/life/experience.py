"""What a shop's own failures and survivors make of a catalogue life.

A gamma on `theta = eta^-beta` that is worth `r0` failures of the catalogue's life: each failure adds one to
its shape, each stretch run adds `exit^beta - entry^beta` to its rate. Theta's mean is then the catalogue's
and the shop's own (failures over stretch run), weighed by the stretch that stands behind each: Buehlmann's
credibility, which is exact for this pair (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.said import say
from quotes.calc.ask.fault import BadRequest, Fault
from quotes.calc.life.life_data import LifeData, refuse_faults


@dataclass(frozen=True, slots=True)
class LearntLife:
    """A life after the shop's evidence; `eta`, `beta` and `evidence` stand in `Wear` as they are."""

    eta: float
    beta: float
    evidence: float
    """Failures that it is worth: the catalogue's strength and the shop's own."""
    catalogue_weight: float
    shop_weight: float
    """How much of the mean hazard is the shop's own; with the catalogue's it makes 1."""

    def eta_at(self, share: float) -> float:
        """The characteristic life that the true one falls short of with this chance."""
        from scipy.special import gammainccinv

        return float(self.eta * (self.evidence / gammainccinv(self.evidence, share)) ** (1.0 / self.beta))

    def band(self, confidence: float) -> tuple[float, float]:
        """The characteristic lives between which the true one lies with this chance."""
        outside = (1.0 - confidence) / 2.0
        return self.eta_at(outside), self.eta_at(1.0 - outside)


def learn(data: LifeData, *, eta: float, beta: float, evidence: float) -> LearntLife:
    """A catalogue life of strength `evidence` (r0) after what the shop has seen.

    An item found failed between two looks counts as failed half way. What the part in hand has itself run
    stays out of the data: `Wear` counts it.
    """
    refuse_faults(data)
    for field, value in (("eta", eta), ("beta", beta), ("evidence", evidence)):
        if not value > 0:
            raise BadRequest((Fault(field, f"{value:g}", say("must be above 0")),))
    run = sum(
        (left / eta) ** beta - (entry / eta) ** beta
        for left, entry in zip(_left(data), data.entered, strict=True)
    )
    worth = evidence + data.failed
    weight = evidence / (evidence + run)
    return LearntLife(
        eta=float(eta * ((evidence + run) / worth) ** (1.0 / beta)),
        beta=beta,
        evidence=worth,
        catalogue_weight=weight,
        shop_weight=1.0 - weight,
    )


def _left(data: LifeData) -> tuple[float, ...]:
    """The age to which each item counts, in the order of `entries`."""
    halfway = ((low + high) / 2.0 for low, high in data.intervals)
    return (*data.failures, *data.suspensions, *halfway)
