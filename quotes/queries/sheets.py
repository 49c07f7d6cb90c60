"""Sheets: the draft of a quote as it would be issued, and issued ones as they were."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Literal, cast

from django.conf import settings
from django.utils import timezone, translation

from catalogue.calc.said import say
from quotes.calc.ask.request import Request
from quotes.calc.defaults import TERMS
from quotes.calc.money.accepted import AcceptedValue
from quotes.calc.sheet.changes import sheet_changes
from quotes.calc.sheet.issued_values import Heading, Party, Sheet
from quotes.calc.sheet.sentences import cautions, honesty
from quotes.calc.sheet.values import Comparison
from quotes.models import Acceptance, ClassRule, Customer, Quote, Revision, Workshop
from quotes.queries.accepted import accepted_option
from quotes.queries.comparison import comparison_for
from quotes.queries.starting_words import starting_words

DRAFT = "draft"


def request_of(row: Quote | Revision) -> Request:
    """The stored request as a value."""
    return Request.model_validate(row.request)


def sheet_of(revision: Revision) -> Sheet:
    """The frozen sheet of an issued revision, with what the workshop paid still in it."""
    return Sheet.model_validate(revision.sheet)


def language_of(revision: Revision) -> str:
    """The language that an issued sheet is written in."""
    return str(revision.sheet["heading"].get("language", settings.LANGUAGE_CODE))


def draft_sheet(quote: Quote, on: date) -> Sheet:
    """The sheet that issuing the quote on that day would freeze, before it has its number."""
    request = request_of(quote).model_copy(update={"on": on})
    return sheet_from(quote, request, comparison_in(quote.customer.reads, request), on)


def comparison_in(language: str, request: Request) -> Comparison:
    """The comparison in the words of who reads the sheet, whatever the desk reads. Raises BadRequest."""
    with translation.override(language):
        return comparison_for(request)


def sheet_from(quote: Quote, request: Request, comparison: Comparison, on: date) -> Sheet:
    """Put the heading, terms and sentences round a comparison, and say what changed from the last sheet."""
    with translation.override(quote.customer.reads):
        return _sheet(quote, request, comparison, on)


def _sheet(quote: Quote, request: Request, comparison: Comparison, on: date) -> Sheet:
    workshop = Workshop.objects.get_or_default()
    latest = quote.latest
    sheet = Sheet(
        heading=Heading(
            number=quote.number or DRAFT,
            revision=latest.index + 1 if latest else 1,
            issued_on=on,
            valid_until=on + timedelta(days=workshop.quote_validity_days),
            workshop=workshop_party(workshop),
            customer=customer_party(quote.customer),
            engine_name=comparison.engine_type_name,
            engine_number=quote.engine.number,
            class_name=_class_name(request),
            paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
            language=quote.customer.reads,
        ),
        comparison=comparison,
        terms=terms_of(workshop),
        cautions=cautions(comparison),
        honesty=honesty(comparison),
        limit_without_asking_pct=workshop.limit_without_asking_pct,
    )
    if latest is None:
        return sheet
    return sheet.model_copy(update={"changes": sheet_changes(sheet_of(latest), sheet)})


def accepted_value(acceptance: Acceptance) -> AcceptedValue:
    """The yes as a value for its receipt, with the names of the extras as the sheet gives them."""
    option = accepted_option(acceptance)
    return AcceptedValue(
        tier=acceptance.tier,
        tier_name=acceptance.tier_name,
        extras=tuple(option.offered[component].name for component in acceptance.extras),
        name=acceptance.name,
        right=acceptance.right,
        telephone=acceptance.telephone,
        gross=acceptance.gross,
        limit_sum=acceptance.limit_sum,
        deposit=acceptance.deposit,
        accepted_at=timezone.localtime(acceptance.accepted_at),
        sheet_sha256=acceptance.sheet_sha256,
        agreed_terms=acceptance.agreed_terms,
        rider_safety_read=acceptance.rider_safety_read,
    )


def workshop_party(workshop: Workshop) -> Party:
    return Party(
        name=workshop.name,
        lines=lines(workshop.address),
        telephone=workshop.telephone,
        email=workshop.email,
        tax_registration=workshop.tax_registration,
    )


def customer_party(customer: Customer) -> Party:
    return Party(
        name=customer.name,
        lines=lines(customer.address),
        telephone=customer.telephone,
        email=customer.email,
        tax_registration=customer.tax_registration,
    )


def lines(text: str) -> tuple[str, ...]:
    """The lines of a text that say something."""
    return tuple(line.strip() for line in text.splitlines() if line.strip())


def paragraphs(text: str) -> tuple[str, ...]:
    """The paragraphs of a text: what stands between blank lines, each on one line."""
    blocks = text.replace("\r\n", "\n").split("\n\n")
    return tuple(" ".join(block.split()) for block in blocks if block.strip())


def terms_of(workshop: Workshop) -> tuple[str, ...]:
    """The workshop's terms by paragraphs, or those to start from where it has written none."""
    return tuple(map(starting_words, paragraphs(workshop.terms))) or tuple(map(say, TERMS))


def _class_name(request: Request) -> str:
    if request.class_code is None:
        return ""
    found = ClassRule.objects.filter(code=request.class_code).first()
    return found.name if found else ""
