"""One life: what was seen, what it makes of the life, the plot, the standard quotes, and what was decided."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.calc.said import say
from catalogue.queries import duty_choices, engine_type_choices, tier_choices
from quotes.calc.ask.fault import BadRequest
from quotes.calc.learning.plot import LineKind, ProbabilityPlot, probability_plot
from quotes.calc.learning.proposal import ENOUGH, Proposal
from quotes.calc.learning.reference import BASIS_NAME
from quotes.calc.learning.seen import IN_WORDS, Counts, SetSeen, counts_of, life_data
from quotes.calc.learning.words import (
    HABITS,
    SURVIVORS,
    alone_in_words,
    counts_in_words,
    figure_of_service,
    no_fit,
    range_in_words,
    run_of,
    sentences,
    service_in_words,
    unit_of,
)
from quotes.forms.books.payment import fresh_key
from quotes.forms.learning import ReasonForm
from quotes.queries.learning.effects import effects_of
from quotes.queries.learning.lives import Life, life_of
from quotes.queries.rights import may
from quotes.views.learning.lives import history, life_words, weight_of


@dataclass(frozen=True, slots=True)
class Offer:
    """One proposal as the page shows it, with its form."""

    proposal: Proposal
    said: tuple[str, ...]
    life: str
    range: str
    form: ReasonForm
    key: str


@dataclass(frozen=True, slots=True)
class Group:
    """What was seen in one duty, or on one engine type."""

    name: str
    counts: Counts
    run: str
    alone: str
    """The life by these rows alone, at the shape that stands."""


@dataclass(frozen=True, slots=True)
class SeenRow:
    """One row of evidence as the page shows it."""

    seen: SetSeen
    type_name: str
    ran_in: str
    outcome: str
    age: str
    note: str


@require_safe
def life(request: HttpRequest, component: str, basis: str) -> HttpResponse:
    """One life, of every engine type together or of the one asked for."""
    return life_page(request, found_life(component, basis, request.GET.get("type", "")))


def found_life(component: str, basis: str, engine_type: str) -> Life:
    if basis not in BASIS_NAME:
        raise Http404(f"There is no basis {basis!r}: {' or '.join(BASIS_NAME)}.")
    found = life_of(component, basis, engine_type)
    if found is None:
        raise Http404(f"The catalogue has no {basis} life of {component!r} on {engine_type or 'any engine'}.")
    return found


def life_page(
    request: HttpRequest, life: Life, *, refused: tuple[str, ReasonForm] | None = None, status: int = 200
) -> HttpResponse:
    """`refused`: the rule of a proposal whose form comes back, with the form."""
    about = life.about
    fitted = life.by_likelihood
    offers = [
        _offer(one, refused) for one in (life.proposal, fitted) if one and not isinstance(one, BadRequest)
    ]
    types = dict(engine_type_choices())
    context: dict[str, Any] = {
        "life": life,
        "offers": offers,
        "no_fit": no_fit(fitted) if isinstance(fitted, BadRequest) else "",
        "enough": ENOUGH,
        "habits": say(HABITS),
        "survivors": say(SURVIVORS),
        "plot": plot_of(life) if life.counting else None,
        "rows": _seen_rows(life, types),
        "by_duty": _groups(life, lambda row: row.duty, dict(duty_choices())),
        "by_type": _groups(life, lambda row: row.engine_type, types),
        "changes": history(about.component, about.basis),
        "owner": may(request.user, "decide on a life"),
        "key": fresh_key(),
        **_as_it_stands(life),
        **_effects(request, life),
    }
    return render(request, "quotes/learning/life.html", context, status=status)


def _as_it_stands(life: Life) -> dict[str, Any]:
    basis = life.about.basis
    return {
        "basis_name": say(BASIS_NAME[basis]),
        "now": life_words(life.before, basis),
        "now_range": range_in_words(life.before, basis),
        "catalogue": life_words(life.catalogue, basis),
        "weight": weight_of(life.weight_now),
        "counts": counts_in_words(life.counts),
    }


def _offer(proposal: Proposal, refused: tuple[str, ReasonForm] | None) -> Offer:
    form = refused[1] if refused and refused[0] == proposal.rule else ReasonForm(prefix=proposal.rule)
    basis = proposal.about.basis
    law = proposal.after
    said = sentences(proposal)[:-1]
    return Offer(proposal, said, life_words(law, basis), range_in_words(law, basis), form, fresh_key())


def _effects(request: HttpRequest, life: Life) -> dict[str, Any]:
    """The standard quotes, where they are asked for: they take a second or two."""
    rule = request.GET.get("quotes", "")
    proposal = life.proposed(rule) if rule in ("learnt", "likelihood") else None  # type: ignore[arg-type]
    if proposal is None:
        return {"effects": None}
    return {"effects": effects_of(proposal, timezone.localdate()), "effects_of": rule}


def plot_of(life: Life) -> ProbabilityPlot:
    """Everything that counts, with the catalogue's law, the one that stands or is proposed, and the fit."""
    laws: list[tuple[LineKind, str, float, float]] = [
        ("catalogue", say("catalogue"), life.catalogue.eta, life.catalogue.shape)
    ]
    shop = life.proposal.after if life.proposal else life.before
    if not shop.same_as(life.catalogue):
        name = say("catalogue and our record") if life.proposal else say("as it stands")
        laws.append(("shop", name, shop.eta, shop.shape))
    by_likelihood, likeliest = life.by_likelihood, None
    if isinstance(by_likelihood, Proposal):
        law = by_likelihood.after
        laws.append(("likelihood", say("our record alone"), law.eta, law.shape))
        if by_likelihood.fitted and by_likelihood.bounds:
            likeliest = by_likelihood.fitted, by_likelihood.bounds
    return probability_plot(life_data(life.counting), laws, unit_of(life.about.basis), likeliest)


def _seen_rows(life: Life, types: dict[str, str]) -> list[SeenRow]:
    duties, tiers, basis = dict(duty_choices()), dict(tier_choices()), life.about.basis
    return [
        SeenRow(
            seen=row,
            type_name=types.get(row.engine_type, row.engine_type),
            ran_in=f"{duties.get(row.duty, row.duty)}, {tiers.get(row.tier, row.tier).lower()}",
            outcome=say(IN_WORDS[row.outcome]),
            age=_age(row, basis),
            note=row.put_aside or (say("counted already") if row.key in life.counted else ""),
        )
        for row in reversed(life.rows)
    ]


def _age(row: SetSeen, basis: str) -> str:
    left = service_in_words(row.left, basis)
    if row.outcome == "past_limit":
        if not row.last_good:
            return say("up to {age}", age=left)
        return say("{low} to {high}", low=figure_of_service(row.last_good, basis), high=left)
    if not row.entry:
        return left
    return say("{age}, from {start}", age=left, start=figure_of_service(row.entry, basis))


def _groups(life: Life, key: Callable[[SetSeen], str], names: dict[str, str]) -> list[Group]:
    by: dict[str, list[SetSeen]] = {}
    for row in life.counting:
        by.setdefault(key(row), []).append(row)
    return [
        Group(
            names.get(code, code),
            counts_of(rows),
            service_in_words(run_of(rows), life.about.basis),
            alone_in_words(rows, life.before, life.about.basis),
        )
        for code, rows in sorted(by.items(), key=lambda pair: names.get(pair[0], pair[0]))
    ]
