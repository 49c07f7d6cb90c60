"""What every answer about a card is made from: its choices, the card, and the options worked out from it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, NamedTuple

from catalogue.queries import engine_catalogue, engine_type_choices
from django.utils.safestring import SafeString, mark_safe

from quotes.calc.band import SpokenRule
from quotes.calc.request import Request
from quotes.calc.sheet import Comparison
from quotes.documents import picture
from quotes.documents.words import currency_in_words
from quotes.forms.card import Answer, Card
from quotes.forms.faults import Fault
from quotes.forms.offered import Choices, Offered, offered_from
from quotes.models import Quote, Workshop
from quotes.queries import comparison as comparisons
from quotes.queries.workshop import shop_rules
from quotes.views.options_table import OptionsTable, options_table


class NotOnTheList(NamedTuple):
    """A code that the catalogue does not know."""

    field: str
    value: object
    allowed: str


@dataclass(slots=True)
class Worked:
    """A card with its answer, and the options where nothing stood in the way."""

    card: Card
    answer: Answer
    comparison: Comparison | None = None


def offered_for(engine_type: str, on: date) -> Offered:
    """The choices of a card on which this engine type stands, which may be none or unknown."""
    types: Choices = engine_type_choices()
    codes = [code for code, _ in types]
    chosen = engine_type in codes
    known = engine_type if chosen else codes[0] if codes else None
    catalogue = engine_catalogue(known) if known else None
    return offered_from(shop_rules(on), types, catalogue, type_chosen=chosen)


def read_card(data: Mapping[str, Any], on: date, quote: Quote | None = None) -> Card:
    """The card as it was typed."""
    base = Request.model_validate(quote.request) if quote else None
    return Card(data, offered_for(str(data.get("type", "")), on), base)


def work_out(card: Card, on: date) -> Worked:
    """Read the card and work its options out; what stands in the way is put at its field."""
    answer = card.answer(on, lambda request: faults_of(request, card.offered))
    worked = Worked(card, answer)
    if answer.request is not None:
        worked.comparison = comparisons.comparison_for(answer.request)
    return worked


def unworked(card: Card) -> Worked:
    """A card of which nothing is worked out."""
    return Worked(card, Answer(None))


def faults_of(request: Request, offered: Offered) -> Iterable[Fault]:
    """What the sums find wrong; an unknown engine type is found first, for nothing can be asked of it."""
    names = [code for code, _ in offered.engine_types]
    if request.engine.type not in names:
        return [NotOnTheList("engine.type", request.engine.type, f"one of {', '.join(names) or 'none yet'}")]
    return comparisons.faults_of(request)


def options_context(worked: Worked, quote: Quote | None) -> dict[str, Any]:
    """What the region with the options shows."""
    comparison = worked.comparison
    shown: dict[str, Any] = {
        "card": worked.card,
        "quote": quote,
        "comparison": comparison,
        "still_to_ask": worked.answer.missing,
        "homeless": worked.answer.homeless,
        "faults": worked.card.has_faults or bool(worked.answer.homeless),
    }
    if comparison is not None:
        shown |= {
            "table": table_of(comparison),
            "picture": drawing(comparison),
            "currency_name": currency_in_words(comparison.currency),
        }
    return shown


def table_of(comparison: Comparison) -> OptionsTable:
    """The comparison in the desk's rows, by the workshop's rule for what is said aloud."""
    workshop = Workshop.objects.get_or_default()
    rule = SpokenRule(under_pct=workshop.spoken_below_pct, over_pct=workshop.spoken_above_pct)
    return options_table(comparison, rule, with_tax=workshop.prices_include_tax_in_talk)


def drawing(comparison: Comparison) -> SafeString:
    """The picture; its writer escapes every text that it sets."""
    return mark_safe(picture.money_against_chance(comparison, "narrow"))
