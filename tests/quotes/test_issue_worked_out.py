"""Issuing from the catalogue that ships: what is worked out is what is frozen, and what is wrong is told."""

from __future__ import annotations

import io
import sys
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

import pytest
from django.db import transaction
from django.utils import translation
from pypdf import PdfReader
from pytest_django import DjangoCaptureOnCommitCallbacks, DjangoDbBlocker
from python_calamine import CalamineWorkbook

from catalogue.queries import engine_catalogue
from quotes.actions.drafts import save_draft
from quotes.actions.files import quote_pdf_file, quote_workbook_file
from quotes.actions.issuing import issue
from quotes.actions.refused import ClassNotTicked, RequestFaults
from quotes.calc.ask.request import Edits, Planned, Refusal
from quotes.calc.compare import compare
from quotes.calc.sheet.values import Comparison
from quotes.models import ClassRule, Counter, Engine, Quote, Revision, StoredFile, Workshop
from quotes.queries.comparison import comparison_for
from quotes.queries.sheets import draft_sheet, request_of, sheet_of
from quotes.queries.workshop import shop_rules
from tests.cast import desk
from tests.quotes import cast
from tests.quotes.cast import NOW, ON
from tests.sample_sheet import sample_comparison
from tests.shipped import load_shipped


@pytest.fixture(scope="module", autouse=True)
def catalogue(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> Iterator[None]:
    """The catalogue that ships, for this file only."""
    with django_db_blocker.unblock(), transaction.atomic():
        load_shipped()
        yield
        transaction.set_rollback(True)


# What is written at an issue is tested on both databases in test_issuing.py.
pytestmark = [pytest.mark.django_db, pytest.mark.one_database]


@pytest.fixture
def refresh(workshop: Workshop, engine: Engine) -> Quote:
    """A draft that asks for refresh alone, which is quick to work out."""
    return cast.draft(engine, tiers=("refresh",))


def change(quote: Quote, **fields: object) -> Quote:
    request = request_of(quote).model_copy(update=fields)
    return save_draft(quote=quote, request=request, expected_version=quote.version, by=desk(), now=NOW)


def faults_of_issuing(quote: Quote) -> list[tuple[str, str]]:
    """Field and value of each fault that issuing tells, when nothing at all is kept of it."""
    with pytest.raises(RequestFaults) as told:
        issue(quote=quote, by=desk(), now=NOW)
    assert (Revision.objects.count(), Counter.objects.count()) == (0, 0)
    return [(fault.field, fault.value) for fault in told.value.faults]


def test_what_is_frozen_is_what_the_sums_give(refresh: Quote) -> None:
    revision = issue(quote=refresh, by=desk(), now=NOW)

    expected = compare(request_of(refresh), engine_catalogue("four600"), shop_rules(ON))
    assert sheet_of(revision).comparison == expected


def test_the_draft_on_the_page_is_the_sheet_that_is_issued(refresh: Quote) -> None:
    draft = draft_sheet(Quote.objects.joined().get(pk=refresh.pk), ON)

    issued = sheet_of(issue(quote=refresh, by=desk(), now=NOW))

    numbered = draft.heading.model_copy(update={"number": issued.heading.number})
    assert issued == draft.model_copy(update={"heading": numbered})


def test_pressing_issue_twice_works_it_out_twice_and_keeps_it_once(refresh: Quote) -> None:
    first = issue(quote=refresh, by=desk(), now=NOW)

    assert issue(quote=refresh, by=desk(), now=NOW) == first
    assert Revision.objects.count() == 1


def test_a_longer_season_is_the_next_revision_and_says_so(refresh: Quote) -> None:
    issue(quote=refresh, by=desk(), now=NOW)
    longer = Planned(duty="endurance", amount=Decimal(3000), unit="mi")
    change(refresh, planned=longer)

    second = issue(quote=refresh, by=desk(), now=NOW)

    assert second.index == 2
    assert "Planned service" in [said.what for said in sheet_of(second).changes]


def test_an_unknown_duty_is_told_at_its_field(refresh: Quote) -> None:
    change(refresh, planned=Planned(duty="ice_race"))

    assert faults_of_issuing(refresh) == [("planned.duty", "ice_race")]


def test_an_engine_type_that_is_gone_from_the_catalogue_is_told(refresh: Quote) -> None:
    change(refresh, engine=cast.asked(type="steam"))

    assert faults_of_issuing(refresh) == [("engine.type", "steam")]


def test_a_must_line_is_not_left_out_without_a_signed_refusal(refresh: Quote) -> None:
    change(refresh, edits={"refresh": Edits(leave=("rod_bolt",))})

    assert faults_of_issuing(refresh) == [("edits.refresh.leave", "rod_bolt")]


def test_with_a_signed_refusal_it_is_left_out_and_the_sheet_names_who_signed(refresh: Quote) -> None:
    signed = Refusal(component="rod_bolt", signed_by="Marel Otten", on=ON, reason="new last winter")
    change(refresh, edits={"refresh": Edits(leave=("rod_bolt",))}, refusals=(signed,))

    sheet = sheet_of(issue(quote=refresh, by=desk(), now=NOW))

    assert sheet.comparison.option("refresh").left["rod_bolt"].refused_by == "Marel Otten"


def test_where_the_owner_does_not_build_it_so_a_refusal_does_not_help(refresh: Quote) -> None:
    Workshop.objects.update(refuses_unsafe=True)
    signed = Refusal(component="rod_bolt", signed_by="Marel Otten", on=ON)
    change(refresh, edits={"refresh": Edits(leave=("rod_bolt",))}, refusals=(signed,))

    assert faults_of_issuing(refresh) == [("edits.refresh.leave", "rod_bolt")]


@pytest.fixture
def in_stock_class(workshop: Workshop, engine: Engine) -> Quote:
    """A mild build for a class that allows no change."""
    ClassRule.objects.create(code="stock", name="Stock")
    return cast.draft(engine, tiers=("mild",), class_code="stock")


def test_an_option_that_breaks_its_class_is_not_issued_without_the_tick(in_stock_class: Quote) -> None:
    with pytest.raises(ClassNotTicked, match="Mild build: cams, compression, porting"):
        issue(quote=in_stock_class, by=desk(), now=NOW)

    assert Revision.objects.count() == 0


def test_with_the_tick_it_is_issued_and_the_tick_is_kept(in_stock_class: Quote) -> None:
    revision = issue(quote=in_stock_class, by=desk(), now=NOW, class_tick=True)

    assert revision.class_tick
    assert sheet_of(revision).heading.class_name == "Stock"


def test_a_tick_that_was_not_needed_is_not_kept(refresh: Quote) -> None:
    assert not issue(quote=refresh, by=desk(), now=NOW, class_tick=True).class_tick


def test_pdf_and_workbook_are_drawn_once_the_issue_is_safe(
    refresh: Quote, django_capture_on_commit_callbacks: DjangoCaptureOnCommitCallbacks
) -> None:
    with django_capture_on_commit_callbacks(execute=True):
        revision = issue(quote=refresh, by=desk(), now=NOW)
        assert StoredFile.objects.count() == 0

    stored = Revision.objects.select_related("pdf", "workbook").get(pk=revision.pk)
    assert stored.pdf is not None
    assert stored.workbook is not None
    assert (stored.pdf.is_sound, stored.workbook.is_sound) == (True, True)
    assert stored.pdf.name == "Q-2026-0001-1.pdf"
    total = f"{stored.gross_to:,.2f}"
    assert total in "".join(page.extract_text() for page in PdfReader(io.BytesIO(stored.pdf.content)).pages)
    assert CalamineWorkbook.from_filelike(io.BytesIO(stored.workbook.content)).sheet_names


def test_if_the_pdf_can_not_be_drawn_the_sheet_is_safe_and_it_is_drawn_when_asked_for(
    refresh: Quote,
    django_capture_on_commit_callbacks: DjangoCaptureOnCommitCallbacks,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with monkeypatch.context() as without, django_capture_on_commit_callbacks(execute=True):
        # As on a machine without the libraries that draw letters.
        without.setitem(sys.modules, "weasyprint", None)
        without.delitem(sys.modules, "quotes.documents.pdf", raising=False)
        revision = issue(quote=refresh, by=desk(), now=NOW)
    revision = Revision.objects.get(pk=revision.pk)
    assert revision.pdf is None

    assert bytes(quote_pdf_file(revision=revision).content).startswith(b"%PDF")


def test_a_document_is_drawn_once_and_then_given_as_it_was_stored(refresh: Quote) -> None:
    revision = issue(quote=refresh, by=desk(), now=NOW)

    first = quote_workbook_file(revision=revision)

    assert quote_workbook_file(revision=Revision.objects.get(pk=revision.pk)) == first
    assert StoredFile.objects.count() == 1


def test_what_the_workshop_paid_is_in_neither_document(workshop: Workshop, engine: Engine) -> None:
    revision = cast.issued(cast.draft(engine), comparison=with_cost(sample_comparison(), Decimal("77777.77")))
    assert "77777.77" in str(revision.sheet)

    pdf = PdfReader(io.BytesIO(quote_pdf_file(revision=revision).content))
    book = CalamineWorkbook.from_filelike(io.BytesIO(quote_workbook_file(revision=revision).content))

    assert not [page for page in pdf.pages if "77,777" in page.extract_text()]
    rows = (row for name in book.sheet_names for row in book.get_sheet_by_name(name).to_python())
    assert not [row for row in rows if 77777.77 in row]


def with_cost(comparison: Comparison, cost: Decimal) -> Comparison:
    """The same comparison, every line of which cost the workshop so much."""
    options = tuple(
        option.model_copy(
            update={"lines": tuple(line.model_copy(update={"cost": cost}) for line in option.lines)}
        )
        for option in comparison.options
    )
    return comparison.model_copy(update={"options": options})


def without_words(value: Any) -> Any:
    """The same with every text left out: what remains are the numbers and the days."""
    if isinstance(value, dict):
        return {key: without_words(inner) for key, inner in value.items()}
    if isinstance(value, (list, tuple)):
        return [without_words(inner) for inner in value]
    return None if isinstance(value, str) else value


def test_a_german_reader_and_an_english_one_get_their_own_words_and_the_same_numbers(refresh: Quote) -> None:
    request = request_of(refresh).model_copy(update={"on": ON})
    english = comparison_for(request)
    with translation.override("de"):
        german = comparison_for(request)
    assert (english.leave_it.name, german.leave_it.name) == ("Leave it", "So lassen")
    assert without_words(german.model_dump()) == without_words(english.model_dump())

    refresh.customer.language = "de"
    sheet = draft_sheet(refresh, ON)
    assert sheet.comparison == german, "the sheet follows its customer, whatever the desk reads"
    assert sheet.honesty[-1].startswith("Das ist keine Zusage")
