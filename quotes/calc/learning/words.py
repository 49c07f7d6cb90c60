"""What a proposal says to the owner, in sentences."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from quotes.calc.ask.fault import BadRequest
from quotes.calc.learning.law import LifeLaw
from quotes.calc.learning.proposal import ENOUGH, Proposal
from quotes.calc.learning.reference import BASIS_UNIT
from quotes.calc.learning.seen import Counts, Seen, life_data
from quotes.calc.life.bounds import Bounds
from quotes.calc.life.life_data import CONFIDENCE
from quotes.calc.life.one_parameter import fit_eta
from quotes.calc.sheet.words import NO_BREAK, listed

HABITS = (
    "Catalogue lives are renewal habits, not failure data: most say when people change a part, "
    "not when it fails. So they are short where a part is changed in good time."
)
SURVIVORS = (
    "A set that was still sound is evidence too: it lasted at least so long. One more of them never makes "
    "a life shorter."
)


def counts_in_words(counts: Counts) -> str:
    """Only what there is: "2 failed, 1 found past its limit and 5 still sound"."""
    its = "its limit" if counts.past_limit == 1 else "their limit"
    said = [
        f"{count} {words}"
        for count, words in (
            (counts.failed, "failed"),
            (counts.past_limit, f"found past {its}"),
            (counts.sound, "still sound"),
        )
        if count
    ]
    return listed(said) or "nothing seen yet"


def service_in_words(amount: float, basis: str) -> str:
    """An amount of reference service: hours below a hundred with a decimal, all else whole."""
    unit = {"miles": "miles", "hours_mx": "hours"}[basis]
    figure = f"{amount:,.1f}" if basis == "hours_mx" and amount < 100 else f"{amount:,.0f}"
    return f"{figure}{NO_BREAK}{unit}"


def run_of(rows: Iterable[Seen]) -> float:
    """Reference service that the rows were watched for, all told."""
    return sum(left - entry for entry, left in life_data(tuple(rows)).stretches)


def sentences(proposal: Proposal) -> tuple[str, ...]:
    """Why this change: the evidence, the move, the weights, and what is not known."""
    moved = _by_likelihood(proposal) if proposal.rule == "likelihood" else _learnt(proposal)
    return (_evidence(proposal), *moved, HABITS)


def _evidence(proposal: Proposal) -> str:
    sets, downs = proposal.counts.all, len(proposal.teardowns)
    run = service_in_words(run_of(proposal.data), proposal.about.basis)
    return (
        f"{sets} set{'s' if sets != 1 else ''} from {downs} strip-down{'s' if downs != 1 else ''} or "
        f"report{'s' if downs != 1 else ''}, watched for {run} of reference service all told: "
        f"{counts_in_words(proposal.counts)}."
    )


def _learnt(proposal: Proposal) -> tuple[str, ...]:
    said = [_move(proposal), _weights(proposal)]
    if not proposal.counts.failed and not proposal.counts.past_limit:
        said.append(none_failed(proposal.data, proposal.before, proposal.about.basis))
    count = proposal.counts.of_one_mode
    if count < ENOUGH:
        said.append(
            f"The shape stays {proposal.after.shape:.2g}: below {ENOUGH} failures of one kind our own record "
            "can't tell how sharply the risk rises with age."
        )
    else:
        said.append(
            f"The shape stays {proposal.after.shape:.2g} here; with {count} failures of one kind it can be "
            "fitted as well, see below."
        )
    return tuple(said)


def _move(proposal: Proposal) -> str:
    basis, before, after = proposal.about.basis, proposal.before, proposal.after
    way = "stays" if abs(after.life / before.life - 1) < 0.005 else "becomes"
    share = f"{proposal.after.quantile * 100:.0f}{NO_BREAK}%"
    return (
        f"The life by which {share} of sets have failed or gone out of limits was "
        f"{service_in_words(before.life, basis)} and {way} {service_in_words(after.life, basis)}, "
        f"{range_in_words(after, basis)}."
    )


def range_in_words(law: LifeLaw, basis: str) -> str:
    return (
        f"likely {service_in_words(law.low, basis).split(NO_BREAK)[0]} to {service_in_words(law.high, basis)}"
    )


def weight_in_words(share: float) -> str:
    """A weight in whole per cent; none is said to be all where the other has some."""
    percent = min(max(round(share * 100), 1), 99) if 0 < share < 1 else round(share * 100)
    return f"{percent}{NO_BREAK}%"


def _weights(proposal: Proposal) -> str:
    own, theirs = weight_in_words(proposal.shop_weight), weight_in_words(proposal.catalogue_weight)
    return (
        f"Our own record has {own} of the weight and the catalogue {theirs}. "
        f"The catalogue counts as {proposal.catalogue.evidence:g} failures seen; now the life stands on "
        f"{proposal.after.evidence:g}."
    )


def alone_in_words(rows: Sequence[Seen], law: LifeLaw, basis: str) -> str:
    """The life that some rows give by themselves, at a known shape: with its bounds, or from below.

    Sets past their limit that nobody had seen good may have failed at once: they give none.
    """
    try:
        one = fit_eta(life_data(rows), law.shape, CONFIDENCE)
    except BadRequest:
        return "too little to say"
    least = service_in_words(law.life_of(one.eta_low), basis)
    if one.eta is None or one.eta_high is None:
        return f"at least {least}"
    between = f"{least.split(NO_BREAK)[0]} to {service_in_words(law.life_of(one.eta_high), basis)}"
    return f"{service_in_words(law.life_of(one.eta), basis)} ({between})"


def none_failed(rows: tuple[Seen, ...], law: LifeLaw, basis: str) -> str:
    """What survivors alone can say: a life from below, by the success-run rule."""
    least = law.life_of(fit_eta(life_data(rows), law.shape, CONFIDENCE).eta_low)
    return (
        "None failed: that says how short the life is not, and nothing of how long it is. "
        f"By these rows alone, at the catalogue's shape, one is {CONFIDENCE * 100:.0f}{NO_BREAK}% sure "
        f"that it is at least {service_in_words(least, basis)} (success-run rule)."
    )


def _by_likelihood(proposal: Proposal) -> tuple[str, ...]:
    fitted, bounds = proposal.fitted, proposal.bounds
    assert fitted is not None
    assert bounds is not None
    basis, sure = proposal.about.basis, f"{bounds.confidence * 100:.0f}{NO_BREAK}%"
    shape = _between(bounds.beta_low, bounds.beta_high, lambda value: f"{value:.1f}")
    eta = _between(bounds.eta_low, bounds.eta_high, lambda value: service_in_words(value, basis))
    said = [
        f"Fitted to our own record alone, by maximum likelihood: shape {fitted.beta:.1f} "
        f"({sure} sure: {shape}) and characteristic life {service_in_words(fitted.eta, basis)} "
        f"({sure} sure: {eta}). "
        "The bounds are those of the likelihood ratio, each on its own.",
        _shape_held(proposal.catalogue.shape, bounds),
        _move(proposal),
        f"The catalogue has no weight left; the life would stand on {proposal.after.evidence:g} failures.",
    ]
    if proposal.counts.failed and proposal.counts.past_limit:
        said.append(
            "Sets that broke and sets that wore past their limit are taken together here, as the life is "
            "that of either. Where they go by different laws the plot bends."
        )
    return tuple(said)


def _shape_held(shape: float, bounds: Bounds) -> str:
    """Whether the catalogue's shape can be believed, now that the record has one of its own."""
    below = bounds.beta_low is not None and shape < bounds.beta_low
    above = bounds.beta_high is not None and shape > bounds.beta_high
    if below or above:
        return (
            f"The catalogue's shape of {shape:.1f} lies outside them, so a life learnt at that shape "
            "is off as well: this fit is the better guide."
        )
    return f"The catalogue's shape of {shape:.1f} lies within them: our record does not speak against it."


def _between(low: float | None, high: float | None, words: object) -> str:
    say = words if callable(words) else str
    if low is None and high is None:
        return "no bound"
    if low is None:
        return f"at most {say(high)}"
    return f"at least {say(low)}" if high is None else f"{say(low)} to {say(high)}"


def no_fit(error: BadRequest) -> str:
    """Why shape and life can't be fitted together."""
    return "Shape and life can't be fitted together: " + "; ".join(
        f"{fault.field} {fault.value}: {fault.allowed}" for fault in error.faults
    )


def unit_of(basis: str) -> str:
    """The unit of a basis as the plot names it."""
    return dict(BASIS_UNIT)[basis]  # type: ignore[index]
