"""The list of components that the bench has something to say of, and what was decided so far."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from catalogue.calc.said import say
from catalogue.models import LifeChange
from catalogue.queries import engine_type_choices
from quotes.calc.learning.law import LifeLaw
from quotes.calc.learning.reference import BASIS_NAME
from quotes.calc.learning.words import service_in_words, weight_in_words
from quotes.queries.learning.lives import Life, lives_with_evidence

LATEST = 20
"""So many of the latest decisions stand on the page."""


@dataclass(frozen=True, slots=True)
class Weight:
    """The shares of catalogue and shop for a bar, and in words; the shop's is drawn from the left."""

    shop: int
    shop_words: str
    catalogue_words: str


def weight_of(catalogue_share: float) -> Weight:
    shop = 1.0 - catalogue_share
    return Weight(round(shop * 100), weight_in_words(shop), weight_in_words(catalogue_share))


@dataclass(frozen=True, slots=True)
class LifeRow:
    """One life as the list shows it."""

    life: Life
    basis_name: str
    now: str
    proposed: str
    weight: Weight
    state: str


def row_of(life: Life) -> LifeRow:
    """What the list says: the life that stands, and the one that is proposed, where there is one."""
    proposal, standing = life.proposal, life.standing
    share = proposal.catalogue_weight if proposal else life.weight_now
    state = say("as the catalogue has it")
    if standing:
        state = say("approved on {on}", on=f"{standing.at:%Y-%m-%d}")
    return LifeRow(
        life=life,
        basis_name=say(BASIS_NAME[life.about.basis]),
        now=life_words(life.before, life.about.basis),
        proposed=life_words(proposal.after, life.about.basis) if proposal else "",
        weight=weight_of(share),
        state=state,
    )


def life_words(law: LifeLaw, basis: str) -> str:
    return service_in_words(law.life, basis)


@require_safe
def lives(request: HttpRequest) -> HttpResponse:
    """Every life that something was seen of, those with a new proposal first among equals."""
    rows = [row_of(life) for life in lives_with_evidence()]
    context = {"rows": rows, "changes": history(), "open": sum(bool(row.proposed) for row in rows)}
    return render(request, "quotes/learning/lives.html", context)


@dataclass(frozen=True, slots=True)
class Decision:
    """One row of the history, in words."""

    change: LifeChange
    about: str
    moved: str
    taken_back: LifeChange | None
    may_take_back: bool


def history(component: str = "", basis: str = "") -> list[Decision]:
    """What was approved and what was taken back, the latest first. One query besides the engine types."""
    rows = LifeChange.objects.select_related("by", "taken_back__by")
    if component:
        rows = rows.filter(component=component, basis=basis)
    approved = list(rows.filter(takes_back=None)[:LATEST])
    names = dict(engine_type_choices()) if approved else {}
    rested_on = {row.rests_on_id for row in approved if not hasattr(row, "taken_back")}
    return [_decision(row, names, rested_on) for row in approved]


def _decision(row: LifeChange, names: dict[str, str], rested_on: set[int | None]) -> Decision:
    back = getattr(row, "taken_back", None)
    whom = names.get(row.engine_type, row.engine_type) if row.engine_type else say("every engine type")
    was, becomes = (service_in_words(figure, row.basis) for figure in (row.was["typical"], row.typical))
    return Decision(
        change=row,
        about=", ".join((row.component.replace("_", " "), say(BASIS_NAME[row.basis]), whom)),  # type: ignore[index]
        moved=say("{was} to {becomes}", was=was, becomes=becomes),
        taken_back=back,
        may_take_back=back is None and row.pk not in rested_on,
    )
