"""Words of the record of stops, as template filters."""

from __future__ import annotations

import math

from django import template
from django.utils.safestring import SafeString, mark_safe

from catalogue.calc.said import say, say_count, say_figure, to_say
from quotes.calc.life.calibration import Record
from quotes.calc.sheet.words import whole_percent
from quotes.documents.drawing.ratios import Ratio, draw_ratios
from quotes.queries.bench.ages.calibration import Calibration

register = template.Library()
VERDICTS = {
    "more": to_say("More stop than was said"),
    "fewer": to_say("Fewer stop than was said"),
    "as promised": to_say("As was said, as far as can be told"),
}


@register.filter
def in_a_sentence(record: Record) -> str:
    """The whole record in short.

    >>> in_a_sentence(Record(services=31, promised=4.2, seen=3, low=0.2, high=1.8))
    'Of 31 services told of, 3 ended in a stop; about 4 were expected to.'
    """
    services = say_count("{count} service", "{count} services", record.services)
    expected = math.floor(record.promised + 0.5)
    if not expected:
        return say(
            "Of {services} told of, {seen} ended in a stop; less than one was expected to.",
            services=services,
            seen=record.seen,
        )
    return say_count(
        "Of {services} told of, {seen} ended in a stop; about {count} was expected to.",
        "Of {services} told of, {seen} ended in a stop; about {count} were expected to.",
        expected,
        services=services,
        seen=record.seen,
    )


@register.filter
def verdict(record: Record) -> str:
    """What a line of the record says, or how many more services it wants."""
    if record.verdict == "too few":
        return say("Too few to say: about {count} more", count=record.more_services)
    return say(VERDICTS[record.verdict])


@register.filter
def in_figures(record: Record) -> str:
    """Stops seen for one expected, with its interval; nothing where neither was."""
    if record.says_nothing or not record.promised:
        return ""
    ratio, low, high = (say_figure(each, 1) for each in (record.ratio, record.low, record.high))
    return say("{ratio} ({low} to {high})", ratio=ratio, low=low, high=high)


@register.filter
def hundredths(share: float) -> str:
    """A share as whole per cent."""
    return whole_percent(share) if share else say("none of it")


@register.inclusion_tag("quotes/bench/calibration_drawn.html")
def drawn(found: Calibration) -> dict[str, SafeString]:
    """Every line of the record with its interval, in both shapes."""
    ratios = [
        _ratio(f"{row.tier}, {row.duty}", row.record) for row in found.rows if not row.record.says_nothing
    ]
    ratios.append(_ratio(say("All"), found.whole))
    return {
        "wide": mark_safe(draw_ratios(ratios, "wide")),
        "narrow": mark_safe(draw_ratios(ratios, "narrow")),
    }


def _ratio(name: str, record: Record) -> Ratio:
    return Ratio(name, record.ratio, record.low, record.high, record.enough)
