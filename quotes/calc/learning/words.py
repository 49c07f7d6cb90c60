"""What a proposal says to the owner, in sentences."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from catalogue.calc.said import say, say_count, say_figure, to_say
from quotes.calc.ask.fault import BadRequest
from quotes.calc.learning.law import LifeLaw
from quotes.calc.learning.proposal import ENOUGH, Proposal
from quotes.calc.learning.reference import BASIS_UNIT
from quotes.calc.learning.seen import Counts, SetSeen, life_data
from quotes.calc.life.bounds import Bounds
from quotes.calc.life.life_data import CONFIDENCE
from quotes.calc.life.one_parameter import fit_eta
from quotes.calc.sheet.unit_words import plain_figure
from quotes.calc.sheet.words import NO_BREAK, listed

HABITS = to_say(
    "Catalogue lives are renewal habits, not failure data: most say when people change a part, "
    "not when it fails. So they are short where a part is changed in good time."
)
SURVIVORS = to_say(
    "A set that was still sound is evidence too: it lasted at least so long. One more of them never makes "
    "a life shorter."
)


def counts_in_words(counts: Counts) -> str:
    """Only what there is: "2 failed, 1 found past its limit and 5 still sound"."""
    said = []
    if counts.failed:
        said.append(say("{count} failed", count=counts.failed))
    if counts.past_limit:
        said.append(
            say_count("{count} found past its limit", "{count} found past their limit", counts.past_limit)
        )
    if counts.sound:
        said.append(say("{count} still sound", count=counts.sound))
    return listed(said) or say("nothing seen yet")


def service_in_words(amount: float, basis: str) -> str:
    """An amount of reference service: hours below a hundred with a decimal, all else whole."""
    return f"{figure_of_service(amount, basis)}{NO_BREAK}{unit_of(basis)}"


def figure_of_service(amount: float, basis: str) -> str:
    """The same without its unit, where that stands beside it."""
    return say_figure(amount, 1 if basis == "hours_mx" and amount < 100 else 0)


def run_of(rows: Iterable[SetSeen]) -> float:
    """Reference service that the rows were watched for, all told."""
    return sum(left - entry for entry, left in life_data(tuple(rows)).stretches)


def sentences(proposal: Proposal) -> tuple[str, ...]:
    """Why this change: the evidence, the move, the weights, and what is not known."""
    moved = _by_likelihood(proposal) if proposal.rule == "likelihood" else _learnt(proposal)
    return (_evidence(proposal), *moved, say(HABITS))


def _evidence(proposal: Proposal) -> str:
    sets, downs = proposal.counts.all, len(proposal.teardowns)
    run = service_in_words(run_of(proposal.data), proposal.about.basis)
    return say(
        "{sets} from {downs}, watched for {run} of reference service all told: {counts}.",
        sets=say_count("{count} set", "{count} sets", sets),
        downs=say_count("{count} strip-down or report", "{count} strip-downs or reports", downs),
        run=run,
        counts=counts_in_words(proposal.counts),
    )


def _learnt(proposal: Proposal) -> tuple[str, ...]:
    said = [_move(proposal), _weights(proposal)]
    if not proposal.counts.failed and not proposal.counts.past_limit:
        said.append(none_failed(proposal.data, proposal.before, proposal.about.basis))
    return (*said, _shape_stays(proposal))


def _shape_stays(proposal: Proposal) -> str:
    count, shape = proposal.counts.of_one_mode, plain_figure(float(f"{proposal.after.shape:.2g}"))
    if count < ENOUGH:
        return say(
            "The shape stays {shape}: below {count} failures of one kind our own record can't tell how "
            "sharply the risk rises with age.",
            shape=shape,
            count=ENOUGH,
        )
    return say(
        "The shape stays {shape} here; with {count} failures of one kind it can be fitted as well, see "
        "below.",
        shape=shape,
        count=count,
    )


def _move(proposal: Proposal) -> str:
    basis, before, after = proposal.about.basis, proposal.before, proposal.after
    told = {
        "share": f"{proposal.after.quantile * 100:.0f}{NO_BREAK}%",
        "was": service_in_words(before.life, basis),
        "now": service_in_words(after.life, basis),
        "range": range_in_words(after, basis),
    }
    if abs(after.life / before.life - 1) < 0.005:
        return say(
            "The life by which {share} of sets have failed or gone out of limits was {was} and stays {now}, "
            "{range}.",
            **told,
        )
    return say(
        "The life by which {share} of sets have failed or gone out of limits was {was} and becomes {now}, "
        "{range}.",
        **told,
    )


def range_in_words(law: LifeLaw, basis: str) -> str:
    low, high = figure_of_service(law.low, basis), service_in_words(law.high, basis)
    return say("likely {least} to {most}", least=low, most=high)


def weight_in_words(share: float) -> str:
    """A weight in whole per cent; none is said to be all where the other has some."""
    percent = min(max(round(share * 100), 1), 99) if 0 < share < 1 else round(share * 100)
    return f"{percent}{NO_BREAK}%"


def _weights(proposal: Proposal) -> str:
    own, theirs = weight_in_words(proposal.shop_weight), weight_in_words(proposal.catalogue_weight)
    return say(
        "Our own record has {own} of the weight and the catalogue {theirs}. The catalogue counts as "
        "{catalogue} failures seen; now the life stands on {now}.",
        own=own,
        theirs=theirs,
        catalogue=_six_figures(proposal.catalogue.evidence),
        now=_six_figures(proposal.after.evidence),
    )


def _six_figures(amount: float) -> str:
    return plain_figure(float(f"{amount:g}"))


def alone_in_words(rows: Sequence[SetSeen], law: LifeLaw, basis: str) -> str:
    """The life that some rows give by themselves, at a known shape: with its bounds, or from below.

    Sets past their limit that nobody had seen good may have failed at once: they give none.
    """
    try:
        one = fit_eta(life_data(rows), law.shape, CONFIDENCE)
    except BadRequest:
        return say("too little to say")
    least = service_in_words(law.life_of(one.eta_low), basis)
    if one.eta is None or one.eta_high is None:
        return say("at least {amount}", amount=least)
    return say(
        "{life} ({low} to {high})",
        life=service_in_words(law.life_of(one.eta), basis),
        low=figure_of_service(law.life_of(one.eta_low), basis),
        high=service_in_words(law.life_of(one.eta_high), basis),
    )


def none_failed(rows: tuple[SetSeen, ...], law: LifeLaw, basis: str) -> str:
    """What survivors alone can say: a life from below, by the success-run rule."""
    least = law.life_of(fit_eta(life_data(rows), law.shape, CONFIDENCE).eta_low)
    return say(
        "None failed: that says how short the life is not, and nothing of how long it is. By these rows "
        "alone, at the catalogue's shape, one is {sure} sure that it is at least {least} (success-run rule).",
        sure=f"{CONFIDENCE * 100:.0f}{NO_BREAK}%",
        least=service_in_words(least, basis),
    )


def _by_likelihood(proposal: Proposal) -> tuple[str, ...]:
    fitted, bounds = proposal.fitted, proposal.bounds
    assert fitted is not None
    assert bounds is not None
    basis, sure = proposal.about.basis, f"{bounds.confidence * 100:.0f}{NO_BREAK}%"
    shape = _between(bounds.beta_low, bounds.beta_high, lambda value: say_figure(value, 1))
    eta = _between(bounds.eta_low, bounds.eta_high, lambda value: service_in_words(value, basis))
    said = [
        say(
            "Fitted to our own record alone, by maximum likelihood: shape {shape} ({sure} sure: {shapes}) "
            "and characteristic life {eta} ({sure} sure: {etas}). The bounds are those of the likelihood "
            "ratio, each on its own.",
            shape=say_figure(fitted.beta, 1),
            sure=sure,
            shapes=shape,
            eta=service_in_words(fitted.eta, basis),
            etas=eta,
        ),
        _shape_held(proposal.catalogue.shape, bounds),
        _move(proposal),
        say(
            "The catalogue has no weight left; the life would stand on {count} failures.",
            count=_six_figures(proposal.after.evidence),
        ),
    ]
    if proposal.counts.failed and proposal.counts.past_limit:
        together = say(
            "Sets that broke and sets that wore past their limit are taken together here, as the life is "
            "that of either. Where they go by different laws the plot bends."
        )
        said.append(together)
    return tuple(said)


def _shape_held(shape: float, bounds: Bounds) -> str:
    """Whether the catalogue's shape can be believed, now that the record has one of its own."""
    below = bounds.beta_low is not None and shape < bounds.beta_low
    above = bounds.beta_high is not None and shape > bounds.beta_high
    if below or above:
        return say(
            "The catalogue's shape of {shape} lies outside them, so a life learnt at that shape is off as "
            "well: this fit is the better guide.",
            shape=say_figure(shape, 1),
        )
    return say(
        "The catalogue's shape of {shape} lies within them: our record does not speak against it.",
        shape=say_figure(shape, 1),
    )


def _between(low: float | None, high: float | None, words: Callable[[float], str]) -> str:
    if low is None and high is None:
        return say("no bound")
    if low is None or high is None:
        if high is not None:
            return say("at most {amount}", amount=words(high))
        return say("at least {amount}", amount=words(low or 0.0))
    return say("{low} to {high}", low=words(low), high=words(high))


def no_fit(error: BadRequest) -> str:
    """Why shape and life can't be fitted together."""
    faults = "; ".join(f"{fault.field} {fault.value}: {fault.allowed}" for fault in error.faults)
    return say("Shape and life can't be fitted together: {faults}", faults=faults)


def unit_of(basis: str) -> str:
    """The unit of a basis as the plot names it."""
    return say(dict(BASIS_UNIT)[basis])  # type: ignore[index]
