"""How far an empty workshop has come."""

from __future__ import annotations

from quotes.calc.first_steps import NAME, PRICES, QUOTE, TAX, FirstStep, first_steps
from quotes.models import Quote
from quotes.queries.set_up import set_up_gaps

LACKING = {
    "quotes.W001": NAME,
    "quotes.W002": NAME,
    "quotes.W003": TAX,
    "quotes.W005": PRICES,
    "quotes.W006": PRICES,
}
"""Which step is not done while a gap is there."""


def steps_to_go() -> tuple[FirstStep, ...]:
    """The first steps; none once a quote was issued, which takes one query to know."""
    if Quote.objects.exclude(number=None).exists():
        return ()
    lacking = {LACKING.get(gap.id) for gap in set_up_gaps()}
    done = {NAME, TAX, PRICES} - lacking
    return first_steps(done | {QUOTE} if Quote.objects.exists() else done)
