"""Interest and storage are proposed by the terms that were signed, and never added."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest

from quotes.actions.accepting import mark_done
from quotes.actions.books.drafts import start_sale
from quotes.calc.invoice.draft import DraftLine
from quotes.models import Acceptance, Booking, BookingTerms, Invoice, InvoiceDraft, Quote
from quotes.queries.books.proposed import ProposedLine, proposed_interest, proposed_lines, proposed_storage
from tests.books import cast
from tests.books.cast import GROSS, NOW, ON
from tests.books.ledger_cast import bounced, marel, paid
from tests.cast import books, desk
from tests.quotes import enquiry_cast

pytestmark = pytest.mark.usefixtures("sound_ledger")

DAY = timedelta(days=1)


@pytest.fixture
def late(build: Acceptance) -> Invoice:
    """Due at once on 25 November, at 8 per cent after 14 days of grace."""
    cast.keep_settings(late_pct_a_year=Decimal(8), late_after_days=14)
    return cast.invoiced(build)


def interest(days: int) -> list[ProposedLine]:
    return proposed_interest(marel(), ON + days * DAY)


def sums(days: int) -> list[str]:
    return [f"{one.line.unit_price:.2f}" for one in interest(days)]


def asked_for(line: DraftLine, days: int) -> Invoice:
    """The proposed line, taken up and issued on that day."""
    return cast.issue(
        start_sale(customer=marel(), lines=(line,), by=books(), now=NOW + days * DAY), now=NOW + days * DAY
    )


def test_interest_runs_after_grace_at_the_rate_of_the_invoice(late: Invoice) -> None:
    assert sums(14) == []
    # 3,186.48 x 8 % x 31 / 365
    assert sums(45) == ["21.65"]
    assert interest(45)[0].terms == ("I-2026-0001 says: 8 % a year from 14 days after its day of payment.")


def test_a_rate_that_was_set_later_does_not_touch_what_was_issued(late: Invoice) -> None:
    cast.keep_settings(late_pct_a_year=Decimal(20), late_after_days=0)

    assert sums(45) == ["21.65"]


def test_nothing_is_proposed_where_the_invoice_asks_for_none(build: Acceptance) -> None:
    cast.invoiced(build)
    cast.keep_settings(late_pct_a_year=Decimal(20))

    assert sums(200) == []


def test_money_that_came_lowers_it_from_the_day_it_came(late: Invoice) -> None:
    paid("3000", on=ON + 24 * DAY, now=NOW + 45 * DAY)

    # 3,186.48 for 10 days and 186.48 for 21
    assert sums(45) == ["7.84"]


def test_a_cheque_that_bounced_bears_it_again_from_the_day_it_came_back(late: Invoice) -> None:
    cheque = paid(GROSS, on=ON + 5 * DAY, now=NOW + 45 * DAY, method="cheque")
    bounced(cheque, on=ON + 24 * DAY, now=NOW + 45 * DAY)

    # 3,186.48 for 21 days
    assert sums(45) == ["14.67"]


def test_what_was_taken_up_is_not_proposed_again_until_it_is_credited(late: Invoice) -> None:
    asked = asked_for(interest(45)[0].line, 45)
    assert (sums(45), sums(76)) == ([], ["21.65"])

    cast.credited(asked, now=NOW + 46 * DAY)

    assert sums(76) == ["43.30"]


def test_interest_is_not_taxed_where_the_workshop_has_a_code_for_that() -> None:
    cast.sales_tax_shop()
    cast.keep_settings(late_pct_a_year=Decimal(8), late_after_days=0)
    cast.invoiced(cast.build())

    assert interest(45)[0].line.tax_code in ("labour", "exempt")


def test_a_proposal_is_kept_nowhere(late: Invoice) -> None:
    proposed_lines(marel(), late.build, ON + 45 * DAY)

    assert InvoiceDraft.objects.open().count() == 0
    assert Invoice.objects.get() == late


def done(build: Acceptance) -> Acceptance:
    return mark_done(acceptance=build, by=desk(), now=NOW)


def booked(build: Acceptance, **terms: Any) -> Booking:
    """The booking that led to the build, confirmed on these terms and agreed to."""
    BookingTerms.objects.update_or_create(pk=BookingTerms.ONLY_ID, defaults=terms)
    call = enquiry_cast.enquiry(build.quote.engine)
    row = enquiry_cast.booking(call, agreed_by="Marel Otten")
    call.quote = Quote.objects.get(pk=build.quote.pk)
    call.save()
    return row


def storage(build: Acceptance, days: int) -> str:
    found = proposed_storage(build, ON + days * DAY)
    return f"{found.line.quantity} x {found.line.unit_price:.2f}" if found else ""


def test_storage_is_by_the_figures_of_the_booking_and_not_by_todays(build: Acceptance) -> None:
    booked(build, storage_free_days=10, storage_a_day=Decimal(7))
    BookingTerms.objects.update(storage_free_days=1, storage_a_day=Decimal(99))

    ready = done(build)

    assert storage(ready, 10) == ""
    assert storage(ready, 15) == "5 x 7.00"


def test_the_sentence_that_was_agreed_to_is_said_with_it(build: Acceptance) -> None:
    booked(build, storage_free_days=10, storage_a_day=Decimal(7))

    found = proposed_storage(done(build), ON + 15 * DAY)

    assert found is not None
    assert found.terms.startswith("Engines and parts that are not collected within 10 days")


def test_without_a_booking_the_terms_of_the_yes_are_asked(build: Acceptance) -> None:
    BookingTerms.objects.create(pk=BookingTerms.ONLY_ID, storage_free_days=14, storage_a_day=Decimal(12))

    assert storage(done(build), 20) == "6 x 12.00"


def test_a_yes_whose_terms_say_nothing_of_storage_pays_none(build: Acceptance) -> None:
    ready = done(build)
    ready.revision.sheet["terms"] = ["Payment is due on collection."]

    assert storage(ready, 99) == ""


def test_a_build_that_is_not_done_is_not_stored(build: Acceptance) -> None:
    assert storage(build, 99) == ""


def test_storage_that_was_taken_up_goes_on_from_there(build: Acceptance) -> None:
    ready = done(build)
    found = proposed_storage(ready, ON + 20 * DAY)
    assert found is not None
    draft = cast.changed(cast.drafted(ready), cast.with_line(found.line))

    cast.issue(draft, now=NOW + 20 * DAY)

    assert (storage(ready, 20), storage(ready, 25)) == ("", "5 x 10.00")
