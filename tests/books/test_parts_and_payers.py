"""One build asked for in parts, and of two who pay."""

from __future__ import annotations

from decimal import Decimal

from quotes.models import Acceptance, OpenItem
from quotes.queries.books.build import build_account
from quotes.queries.books.credits import sheet_of_invoice
from tests.books import cast
from tests.books.cast import NOW


def test_what_is_left_of_each_line_is_what_no_invoice_asked_for(build: Acceptance) -> None:
    cast.invoiced(build, share_pct=Decimal(25))

    account = build_account(build, NOW.date())

    springs = next(one for one in account.lines if one.line.key == "option:part:S-VSP")
    assert springs.left is not None
    assert [springs.line.quantity, springs.invoiced, springs.left.quantity] == [16, 4, 12]
    assert not account.finally_invoiced


def test_parts_come_to_the_whole_to_the_last_cent(build: Acceptance) -> None:
    documents = [cast.invoiced(build, share_pct=Decimal("33.3")) for _ in range(3)] + [cast.invoiced(build)]

    assert sum(document.net for document in documents) == cast.NET
    assert build_account(build, NOW.date()).finally_invoiced


def test_labour_goes_to_one_payer_and_the_rest_to_another(build: Acceptance) -> None:
    rider = cast.invoiced(build, kinds=("labour",))
    sponsor = cast.invoiced(build, payer=cast.other_payer())

    assert {line.kind for line in sheet_of_invoice(rider).lines} == {"labour"}
    assert {line.kind for line in sheet_of_invoice(sponsor).lines} == {"part", "machine_work", "consumables"}
    assert (rider.net, rider.net + sponsor.net) == (cast.LABOUR, cast.NET)
    assert [item.customer.name for item in OpenItem.objects.order_by("pk")] == [
        "Marel Otten",
        "Two Rivers Team",
    ]


def test_two_payers_share_a_build(build: Acceptance) -> None:
    sponsor = cast.invoiced(build, payer=cast.other_payer(), share_pct=Decimal(60))
    rider = cast.invoiced(build)

    assert sponsor.net == Decimal("1593.24")
    assert sponsor.net + rider.net == cast.NET


def test_a_payer_is_named_on_his_own_document(build: Acceptance) -> None:
    sheet = sheet_of_invoice(cast.invoiced(build, payer=cast.other_payer()))

    assert sheet.buyer.name == "Two Rivers Team"
    assert sheet.agreed is not None
    assert sheet.agreed.accepted_by == "Marel Otten"


def test_a_build_closed_early_is_finally_invoiced(build: Acceptance) -> None:
    draft = cast.drafted(build, kinds=("labour",))

    cast.issue(cast.changed(draft, lambda content: content.model_copy(update={"last": True})))

    assert build_account(build, NOW.date()).finally_invoiced
