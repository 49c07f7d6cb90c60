"""From a yes to an invoice: what is asked for, as it was quoted, clocked or brought along."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.books.drafts import start_sale
from quotes.actions.books.refused import DraftClosed, DraftFaults, NothingToInvoice
from quotes.actions.books.worked_hours import enter_hours
from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.invoice.draft import Draft
from quotes.models import Acceptance, Invoice, InvoiceDraft, JournalEntry, OpenItem
from quotes.queries.books.build import build_account
from quotes.queries.books.credits import sheet_of_invoice
from quotes.queries.books.sheets import content_of, draft_sheet
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import books, builder
from tests.quotes.cast import customer


def test_an_invoice_asks_for_the_accepted_option_as_it_was_quoted(build: Acceptance) -> None:
    sheet = sheet_of_invoice(cast.invoiced(build))

    option = cast.comparison().option("mild")
    assert [(line.description, line.net) for line in sheet.lines] == [
        (line.description, line.net) for line in option.lines
    ]
    assert (sheet.sums.net, sheet.sums.tax, sheet.sums.due) == (cast.NET, cast.TAX, cast.GROSS)


def test_an_invoice_says_which_yes_it_rests_on(build: Acceptance) -> None:
    agreed = sheet_of_invoice(cast.invoiced(build)).agreed

    assert agreed is not None
    assert (agreed.quote, agreed.revision, agreed.option) == ("Q-2026-0001", 1, "Mild build")
    assert (agreed.accepted_by, agreed.gross, agreed.limit_sum) == ("Marel Otten", cast.GROSS, cast.LIMIT)


def test_an_issued_invoice_stands_on_the_account_and_in_the_journal(build: Acceptance) -> None:
    invoice = cast.invoiced(build)

    assert OpenItem.objects.get().open_amount == cast.GROSS
    entry = JournalEntry.objects.get(invoice=invoice)
    assert (entry.number, entry.total) == (invoice.number, cast.GROSS)


def test_a_draft_shows_exactly_what_is_issued(build: Acceptance) -> None:
    draft = cast.drafted(build)
    shown = draft_sheet(draft, NOW.date())

    issued = sheet_of_invoice(cast.issue(draft))

    assert shown.number == "draft"
    assert issued == shown.model_copy(update={"number": "I-2026-0001"})


def test_the_fingerprint_is_that_of_the_stored_sheet(build: Acceptance) -> None:
    invoice = Invoice.objects.get(pk=cast.invoiced(build).pk)

    assert invoice.sheet_sha256 == fingerprint(sheet_of_invoice(invoice))


def test_the_files_are_kept_with_the_fingerprints_they_were_stored_under(build: Acceptance) -> None:
    invoice = Invoice.objects.select_related("pdf", "xml").get(pk=cast.invoiced(build).pk)

    assert invoice.pdf.is_sound
    assert bytes(invoice.pdf.content) == b"%PDF I-2026-0001 3186.48"
    assert invoice.xml is not None
    assert invoice.xml.is_sound


def test_a_workshop_with_sales_tax_shows_its_components_and_has_no_xml(db: None) -> None:
    cast.sales_tax_shop()

    invoice = cast.invoiced(cast.build())

    group = sheet_of_invoice(invoice).sums.tax_groups[1]
    assert [(name, rate) for name, rate, _ in group.components] == [("State", 6), ("County", Decimal("1.25"))]
    assert invoice.xml is None


def test_ticked_extras_are_on_the_invoice_at_the_price_they_were_offered_at(db: None) -> None:
    build = cast.build(extras=["cam_chain_tensioner"])

    sheet = sheet_of_invoice(cast.invoiced(build))

    assert sheet.lines[-1].key == "extra:cam_chain_tensioner:1"
    assert sheet.sums.gross == build.gross == cast.GROSS + Decimal("115.80")


def test_issue_pressed_twice_gives_the_same_invoice(build: Acceptance) -> None:
    draft = cast.drafted(build)

    first, second = cast.issue(draft), cast.issue(draft, now=cast.LATER)

    assert (second.pk, second.issued_at) == (first.pk, NOW)
    assert Invoice.objects.count() == 1


def test_an_invoice_started_twice_is_one_draft(build: Acceptance) -> None:
    assert cast.drafted(build) == cast.drafted(build)
    assert InvoiceDraft.objects.count() == 1


def test_what_was_asked_for_is_not_asked_for_again(build: Acceptance) -> None:
    cast.invoiced(build)

    with pytest.raises(NothingToInvoice, match="asked for: I-2026-0001"):
        cast.drafted(build)


def test_two_drafts_of_one_build_ask_for_it_once(build: Acceptance) -> None:
    own, other = cast.drafted(build), cast.drafted(build, payer=cast.other_payer())
    cast.issue(own)

    with pytest.raises(DraftFaults, match=r"lines\.1\.quantity: 6\.8: at most 0: 6\.8") as told:
        cast.issue(other)

    assert len(told.value.faults) == 6
    assert Invoice.objects.count() == 1


def test_a_dropped_draft_is_not_issued_and_leaves_no_gap(build: Acceptance) -> None:
    from quotes.actions.books.drafts import drop_invoice_draft

    dropped = drop_invoice_draft(draft=cast.drafted(build), by=books(), now=NOW)

    with pytest.raises(DraftClosed, match="dropped"):
        cast.issue(dropped)
    assert cast.invoiced(build).number == "I-2026-0001"


def test_an_issued_document_is_no_draft_any_more(build: Acceptance) -> None:
    draft = cast.drafted(build)
    cast.issue(draft)

    with pytest.raises(DraftClosed, match="I-2026-0001, which stands"):
        cast.changed(draft, lambda content: content.model_copy(update={"note": "Late."}))


def test_a_part_that_the_customer_brought_is_fitted_and_not_charged(build: Acceptance) -> None:
    def bring(content: Draft) -> Draft:
        lines = [
            line.model_copy(update={"own_part": True}) if line.key == "option:part:P-CAM-I" else line
            for line in content.lines
        ]
        return content.model_copy(update={"lines": tuple(lines)})

    sheet = sheet_of_invoice(cast.issue(cast.changed(cast.drafted(build), bring)))

    cam = next(line for line in sheet.lines if line.key == "option:part:P-CAM-I")
    assert (cam.own_part, cam.net, cam.quantity) == (True, Decimal(0), Decimal(1))
    assert sheet.sums.net == cast.NET - 612
    assert build_account(build, NOW.date()).finally_invoiced


def test_lines_that_stand_alone_are_asked_for_beside_the_build(build: Acceptance) -> None:
    free = [
        cast.line("Storage, 10 days", kind="storage", unit_price=Decimal(5), quantity=Decimal(10)),
        cast.line("Core of the crankshaft", kind="core"),
        cast.line("Interest", kind="interest", unit_price=Decimal(7)),
        cast.line("Freight", kind="freight", unit_price=Decimal(40)),
        cast.line("Old parts sent back", kind="other", unit_price=Decimal(9)),
    ]
    draft = cast.drafted(build)
    for line in free:
        draft = cast.changed(draft, cast.with_line(line))

    sheet = sheet_of_invoice(cast.issue(draft))

    assert [line.kind for line in sheet.lines[-5:]] == ["storage", "core", "interest", "freight", "other"]
    assert sheet.sums.net == cast.NET + 206


def test_a_sale_over_the_counter_rests_on_no_build(db: None) -> None:
    cast.vat_shop()

    draft = start_sale(customer=customer(), lines=[cast.line("Spark plugs")], by=books(), now=NOW)
    invoice = cast.issue(draft)

    assert (invoice.build, invoice.gross) == (None, Decimal(120))


def test_a_sale_asks_for_nothing_of_a_build(db: None) -> None:
    cast.vat_shop()
    lines = [cast.line(key="option:part:S-VSP"), cast.line(key="interest:I-2026-0001:2026-11-25")]
    draft = start_sale(customer=customer(), lines=lines, by=books(), now=NOW)

    with pytest.raises(DraftFaults) as told:
        cast.issue(draft)

    assert [fault.field for fault in told.value.faults] == ["lines.1"]


def test_a_document_of_nothing_can_be_issued(db: None) -> None:
    cast.vat_shop()
    lines = [cast.line("Guarantee work"), cast.line("Guarantee work", quantity=Decimal(-1))]

    invoice = cast.issue(start_sale(customer=customer(), lines=lines, by=books(), now=NOW))

    assert invoice.due == 0
    assert invoice.due_on is None
    assert OpenItem.objects.get().amount == 0


def test_a_document_without_lines_is_not_issued(build: Acceptance) -> None:
    draft = cast.changed(cast.drafted(build), lambda content: content.model_copy(update={"lines": ()}))

    with pytest.raises(NothingToInvoice, match="no line"):
        cast.issue(draft)


def test_labour_is_asked_for_at_the_hours_clocked_where_the_workshop_does_so(build: Acceptance) -> None:
    cast.keep_settings(labour_by="clocked")
    for operation, hours in (("cases_split", "6.1"), ("head_on", "7.75")):
        enter_hours(
            build=build,
            operation=operation,
            person=builder(),
            on=NOW.date() - timedelta(days=len(operation)),
            hours=Decimal(hours),
            by=builder(),
            now=NOW,
        )

    sheet = sheet_of_invoice(cast.invoiced(build))

    assert [line.quantity for line in sheet.lines if line.kind == "labour"] == [
        Decimal("6.1"),
        Decimal("7.75"),
    ]
    assert build_account(build, NOW.date()).finally_invoiced


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"tax_code": "reduced"}, r"lines\.7\.tax_code: reduced: one of: standard"),
        ({"quantity": Decimal(0)}, r"lines\.7\.quantity: 0: any other quantity"),
        ({"own_part": True}, r"lines\.7\.own_part: freight: only a part"),
    ],
)
def test_a_line_that_can_not_be_asked_for_is_refused_at_its_field(
    build: Acceptance, change: dict[str, Any], fault: str
) -> None:
    draft = cast.drafted(build)

    with pytest.raises(DraftFaults, match=fault):
        cast.changed(draft, cast.with_line(cast.line(**change)))

    draft.refresh_from_db()
    assert draft.version == 1


def test_a_share_that_is_none_is_refused(build: Acceptance) -> None:
    with pytest.raises(ValidationError, match="150 %: above 0 and at most 100"):
        cast.drafted(build, share_pct=Decimal(150))


def test_two_who_change_one_draft_find_out(build: Acceptance) -> None:
    from quotes.actions.refused import StaleDraft

    draft = cast.drafted(build)
    cast.changed(draft, cast.with_line(cast.line()))

    with pytest.raises(StaleDraft) as told:
        cast.changed(draft, lambda content: content.model_copy(update={"note": "Thank you."}))

    assert [(change.what, change.before) for change in told.value.changes] == [
        ("Freight of the crankshaft", "1 each at 100, tax standard"),
        ("note", ""),
    ]


def test_an_invoice_can_only_rest_on_the_revision_that_stands(db: None) -> None:
    from quotes.actions.refused import Superseded
    from tests.quotes.cast import accepted, draft, engine, issued

    cast.vat_shop()
    quote = draft(engine(customer()))
    first = issued(quote, comparison=cast.comparison())
    shorter = cast.comparison().model_copy(update={"planned_in_words": "1,200 miles"})
    second = issued(quote, comparison=shorter, now=cast.LATER)
    with pytest.raises(Superseded):
        accepted(first, now=cast.LATER)
    assert not Acceptance.objects.exists()

    agreed = sheet_of_invoice(cast.invoiced(accepted(second, now=cast.LATER), now=cast.LATER)).agreed

    assert agreed is not None
    assert agreed.revision == 2


def test_what_a_draft_holds_reads_back_as_it_was_kept(build: Acceptance) -> None:
    draft = cast.changed(cast.drafted(build), cast.with_line(cast.line(note="By lorry")))

    kept = content_of(InvoiceDraft.objects.get(pk=draft.pk))

    assert (kept.lines[-1].note, len(kept.lines)) == ("By lorry", 7)
