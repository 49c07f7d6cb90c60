"""Words of the record of stops, as template filters."""

from __future__ import annotations

import math

from django import template
from django.utils.safestring import SafeString, mark_safe

from quotes.calc.life.calibration import Record
from quotes.calc.sheet.words import whole_percent
from quotes.documents.drawing.ratios import Ratio, draw_ratios
from quotes.queries.bench.calibration import Calibration

register = template.Library()


@register.filter
def in_a_sentence(record: Record) -> str:
    """The whole record in short.

    >>> in_a_sentence(Record(services=31, promised=4.2, seen=3, low=0.2, high=1.8))
    'Of 31 services told of, 3 ended in a stop; about 4 were expected to.'
    """
    services = "1 service" if record.services == 1 else f"{record.services} services"
    return f"Of {services} told of, {record.seen} ended in a stop; {_expected(record.promised)} expected to."


def _expected(promised: float) -> str:
    """How many were expected to, in words.

    >>> _expected(0.3), _expected(1.2), _expected(2.5)
    ('less than one was', 'about 1 was', 'about 3 were')
    """
    whole = math.floor(promised + 0.5)
    if not whole:
        return "less than one was"
    return f"about {whole} {'was' if whole == 1 else 'were'}"


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
def in_figures(record: Record) -> str:
    """Stops seen for one expected, with its interval; nothing where neither was."""
    if record.says_nothing or not record.promised:
        return ""
    return f"{record.ratio:.1f} ({record.low:.1f} to {record.high:.1f})"


@register.filter
def hundredths(share: float) -> str:
    """A share as whole per cent."""
    return whole_percent(share) if share else "none of it"


@register.inclusion_tag("quotes/bench/calibration_drawn.html")
def drawn(found: Calibration) -> dict[str, SafeString]:
    """Every line of the record with its interval, in both shapes."""
    ratios = [
        _ratio(f"{row.tier}, {row.duty}", row.record) for row in found.rows if not row.record.says_nothing
    ]
    ratios.append(_ratio("All", found.whole))
    return {
        "wide": mark_safe(draw_ratios(ratios, "wide")),
        "narrow": mark_safe(draw_ratios(ratios, "narrow")),
    }


def _ratio(name: str, record: Record) -> Ratio:
    return Ratio(name, record.ratio, record.low, record.high, record.enough)
