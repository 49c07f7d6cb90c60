"""What every answer about a card is made from: its choices, the card, and the options worked out from it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, NamedTuple

from django.utils.safestring import SafeString, mark_safe

from catalogue.calc.said import say
from catalogue.queries import engine_catalogue, engine_type_choices
from quotes.calc.ask.fault import BadRequest
from quotes.calc.ask.request import EngineAsked, Request
from quotes.calc.money.price import MissingPriceError
from quotes.calc.sheet.sentences import honesty
from quotes.calc.sheet.values import Comparison
from quotes.documents import picture
from quotes.documents.glance import before_sold
from quotes.documents.words import currency_in_words
from quotes.forms.asked import Asked
from quotes.forms.card import Answer, Card
from quotes.forms.faults import Fault
from quotes.forms.offered import Choices, Offered, offered_from
from quotes.forms.who import WhoPart
from quotes.models import ClassRule, Engine, Quote, Workshop
from quotes.queries import comparison as comparisons
from quotes.queries.bench.ages.after import engine_now
from quotes.queries.bench.ages.stays import holds_lifed_parts
from quotes.queries.bench.leaving.dyno import measured_power
from quotes.queries.bench.teardown.findings_words import reading_in_words
from quotes.queries.enquiry import spoken_rule
from quotes.views.card.options_table import OptionsTable, options_table


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


def offered_for(engine_type: str) -> Offered:
    """The choices of a card on which this engine type stands, which may be none or unknown."""
    types: Choices = engine_type_choices()
    codes = [code for code, _ in types]
    chosen = engine_type in codes
    known = engine_type if chosen else codes[0] if codes else None
    return offered_from(
        types,
        engine_catalogue(known) if known else None,
        type_chosen=chosen,
        classes=ClassRule.objects.all(),
        distance="km" if Workshop.objects.get_or_default().distance_unit == "km" else "mi",
    )


def read_card(data: Mapping[str, Any], quote: Quote | None = None) -> Card:
    """The card as it was typed."""
    base = Request.model_validate(quote.request) if quote else None
    who, engine_type = WhoPart(data), str(data.get("type", ""))
    picked = Engine.objects.filter(pk=who.engine_id or 0, customer=who.customer_id or 0)
    engine = quote.engine if quote else picked.first() if who.engine_id else None
    known = known_engine(engine) if engine and engine.type_code == engine_type else None
    return Card(data, offered_for(engine_type), base, known)


def known_engine(engine: Engine) -> EngineAsked:
    """What the books know of an engine that no field of the card asks for."""
    carried = engine_now(engine).carried if holds_lifed_parts(engine) else {}
    return EngineAsked(
        type=engine.type_code,
        build_cycles=engine.build_cycles,
        carried=carried,
        measured_power=measured_power(engine),
    )


def work_out(card: Card, on: date) -> Worked:
    """Read the card and work its options out; what stands in the way is put at its field."""
    worked = Worked(card, card.answer(on))
    if (request := worked.answer.request) is None:
        return worked
    if unknown := unknown_type(request, card.offered):
        worked.answer.refuse([unknown])
        return worked
    try:
        worked.comparison = comparisons.comparison_for(request)
    except BadRequest as bad:
        worked.answer.refuse(bad.faults)
    except MissingPriceError as missing:
        lacks = str(missing).capitalize()
        worked.answer.homeless.append(say("{missing}: give it one, then work it out again.", missing=lacks))
        worked.answer.request = None
    return worked


def unworked(card: Card) -> Worked:
    """A card of which nothing is worked out."""
    return Worked(card, Answer(Asked()))


def unknown_type(request: Request, offered: Offered) -> Fault | None:
    """An unknown engine type is found first, for nothing can be asked of it."""
    names = [code for code, _ in offered.engine_types]
    if request.engine.type in names:
        return None
    return NotOnTheList(
        "engine.type", request.engine.type, say("one of {names}", names=", ".join(names) or say("none yet"))
    )


def faults_of(request: Request, offered: Offered) -> Iterable[Fault]:
    """What the sums find wrong with a request, before anything is worked out."""
    unknown = unknown_type(request, offered)
    return [unknown] if unknown else comparisons.faults_of(request)


def options_context(worked: Worked, quote: Quote | None) -> dict[str, Any]:
    """What the region with the options shows."""
    comparison = worked.comparison
    shown: dict[str, Any] = {
        "card": worked.card,
        "quote": quote,
        "comparison": comparison,
        "still_to_ask": worked.answer.missing,
        "homeless": worked.answer.homeless,
        "faults": worked.card.has_faults_of_engine or bool(worked.answer.homeless),
    }
    if comparison is None or worked.answer.request is None:
        shown["spoken"] = " ".join([*worked.answer.homeless, *(cell.fault for cell in worked.card.cells)])
    else:
        table = table_of(comparison)
        shown |= {
            "table": table,
            "spoken": table.spoken,
            "picture": drawing(comparison),
            "before_sold": before_sold(comparison),
            "read": [reading_in_words(each) for each in worked.answer.request.readings],
            "currency_name": currency_in_words(comparison.currency),
            "honesty": honesty(comparison),
        }
    return shown


def table_of(comparison: Comparison) -> OptionsTable:
    """The comparison in the desk's rows, by the workshop's rule for what is said aloud."""
    workshop = Workshop.objects.get_or_default()
    return options_table(comparison, spoken_rule(), with_tax=workshop.prices_include_tax_in_talk)


def drawing(comparison: Comparison) -> SafeString:
    """The picture; its writer escapes every text that it sets."""
    return mark_safe(picture.money_against_chance(comparison, "narrow"))
