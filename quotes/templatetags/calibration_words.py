"""Words of the record of stops, as template filters."""

from __future__ import annotations

import math

from django import template

from quotes.calc.life.calibration import Record
from quotes.calc.sheet.words import whole_percent

register = template.Library()


@register.filter
def in_a_sentence(record: Record) -> str:
    """The whole record in short.

    >>> in_a_sentence(Record(services=31, promised=4.2, seen=3, low=0.2, high=1.8))
    'Of 31 services that were told, 3 ended in a stop; about 4 were expected to.'
    """
    expected = "less than one was" if record.promised < 0.5 else f"about {math.floor(record.promised + 0.5)} "
    were = (
        expected if record.promised < 0.5 else expected + ("was" if expected.strip() == "about 1" else "were")
    )
    services = "1 service that was" if record.services == 1 else f"{record.services} services that were"
    return f"Of {services} told, {record.seen} ended in a stop; {were} expected to."


@register.filter
def verdict(record: Record) -> str:
    """What a line of the record says, or how many more services it wants."""
    if record.verdict == "too few":
        return f"Too few to say: about {record.more_services} more"
    return {
        "more": "More stop than was said",
        "fewer": "Fewer stop than was said",
        "as promised": "As was said, as far as can be told",
    }[record.verdict]


@register.filter
def hundredths(share: float) -> str:
    """A share as whole per cent."""
    return whole_percent(share) if share else "none of it"
