"""The owner's yes to a proposed life, and the taking back of it."""

from __future__ import annotations

from datetime import datetime
from uuid import UUID

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.lives import LifeApproved, LifeFigures, hold_lives, keep_change
from catalogue.calc.said import say
from catalogue.models import LifeChange
from quotes.actions.refused import Refused
from quotes.calc.learning.law import LifeLaw
from quotes.calc.learning.proposal import About, Proposal, Rule
from quotes.calc.learning.words import sentences
from quotes.queries.learning.lives import Life, life_of


class EvidenceMoved(Refused):
    """What would be approved is not what was shown."""

    def __init__(self) -> None:
        super().__init__(
            say(
                "The evidence or the life has changed since this page was opened. Nothing was approved: look "
                "at what it would do now."
            )
        )


@transaction.atomic
def approve_life(
    *, about: About, rule: Rule, shown: str, reason: str, key: UUID, by: User, now: datetime
) -> LifeChange:
    """Keep the proposal that was shown, by its fingerprint; the same key again gives the one that was kept.

    EvidenceMoved where it is another by now; ValidationError without a reason. Issued quotes do not move.
    """
    hold_lives()
    if kept := LifeChange.objects.filter(key=key).first():
        return kept
    life = life_of(about.component, about.basis, about.engine_type)
    proposal = life.proposed(rule) if life else None
    if life is None or proposal is None or proposal.fingerprint != shown:
        raise EvidenceMoved
    return keep_change(change=_change(life, proposal), reason=reason, key=key, by=by, now=now)


def _change(life: Life, proposal: Proposal) -> LifeApproved:
    new, standing = {row.key for row in proposal.data}, life.standing
    builds_on = standing if proposal.rule == "learnt" else None
    teardowns = proposal.teardowns | frozenset(builds_on.teardowns if builds_on else ())
    return LifeApproved(
        component=life.about.component,
        basis=life.about.basis,
        engine_type=life.about.engine_type,
        rule=proposal.rule,
        was=_figures(proposal.before),
        becomes=_figures(proposal.after),
        rests_on=standing,
        data={"rows": [row.as_json() for row in proposal.data], "said": list(sentences(proposal))},
        counted=sorted(new | (life.counted if builds_on else frozenset()), key=int),
        teardowns=sorted(teardowns),
    )


def _figures(law: LifeLaw) -> LifeFigures:
    return LifeFigures(law.low, law.life, law.high, law.shape, law.evidence)
