"""What every chance rests on, for pages that show chances of more than one service."""

from __future__ import annotations

from catalogue.queries.lives import approved_lives
from quotes.calc.sheet.sentences import honesty_in_general
from quotes.models import Workshop


def honesty_now() -> tuple[str, ...]:
    """The five sentences as of now: the strip-downs behind approved lives, and the shop's factor."""
    seen = frozenset[str]().union(*(life.teardowns for life in approved_lives()))
    factor = Workshop.objects.get_or_default().shop_factor
    return honesty_in_general(len(seen), float(factor))
