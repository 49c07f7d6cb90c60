"""Clutches and springs that were seen in earlier years. All invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any
from uuid import UUID, uuid4

from catalogue.models import LifeChange
from quotes.actions.learning.approving import approve_life
from quotes.actions.learning.by_hand import EarlierSet, enter_all, enter_evidence
from quotes.calc.learning.proposal import Proposal, Rule
from quotes.models import Evidence
from quotes.queries.learning.lives import Life, life_of
from tests.cast import owner
from tests.quotes.cast import NOW

CLUTCH = "clutch_friction"


def earlier(**change: Any) -> EarlierSet:
    """A clutch of a 600 four that came out sound after 4,000 sprint miles."""
    whole = EarlierSet(
        type_code="four600",
        component=CLUTCH,
        engine="H4-21103",
        on=date(2024, 7, 8),
        outcome="sound",
        amount=Decimal(4000),
        unit="mi",
        duty="sprint",
        tier="refresh",
        source="Bench book 5",
    )
    return replace(whole, **change)


def entered(**change: Any) -> Evidence:
    return enter_evidence(told=earlier(**change), key=uuid4(), by=owner(), now=NOW)


def many(count: int, **change: Any) -> None:
    """So many sets, each of an engine of its own."""
    rows = [
        earlier(engine=f"H4-2{place:04}", amount=Decimal(1500 + 400 * place), **change)
        for place in range(count)
    ]
    enter_all(told=rows, by=owner(), now=NOW)


def clutch(engine_type: str = "") -> Life:
    life = life_of(CLUTCH, "miles", engine_type)
    assert life is not None
    return life


def proposed(engine_type: str = "", rule: Rule = "learnt") -> Proposal:
    proposal = clutch(engine_type).proposed(rule)
    assert proposal is not None
    return proposal


def approved(engine_type: str = "", rule: Rule = "learnt", key: UUID | None = None) -> LifeChange:
    proposal = proposed(engine_type, rule)
    return approve_life(
        about=proposal.about,
        rule=rule,
        shown=proposal.fingerprint,
        reason="Three seasons of clutches",
        key=key or uuid4(),
        by=owner(),
        now=NOW,
    )
