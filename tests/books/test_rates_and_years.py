"""Days that matter: the tax of the day of supply, and the number of the year of issue."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.settings import save_settings
from quotes.calc.shop import TaxComponent
from quotes.models import Acceptance, Invoice, TaxRate, Workshop
from quotes.queries.books.credits import sheet_of_invoice
from quotes.queries.books.day import money_of
from quotes.queries.settings import settings_now
from quotes.queries.tax_rates import tax_rates
from quotes.queries.workshop import shop_rules
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import owner

NEXT_YEAR = datetime(2027, 1, 8, 10, tzinfo=UTC)
NEW_YEAR = date(2027, 1, 1)


def test_a_rate_that_changed_since_the_quote_is_used_and_said(build: Acceptance) -> None:
    cast.change_rate("21")

    sheet = sheet_of_invoice(cast.invoiced(build))

    assert (sheet.sums.net, sheet.sums.tax) == (cast.NET, Decimal("557.63"))
    assert sheet.notes == (
        "Tax standard is 21 %, the rate on the day of supply, 25 November 2026; "
        "the quote reckoned with 20 %.",
    )


def test_a_rate_that_is_that_of_the_quote_is_not_spoken_of(build: Acceptance) -> None:
    assert sheet_of_invoice(cast.invoiced(build)).notes == ()


def test_a_build_done_before_new_year_is_supplied_then_and_issued_after(build: Acceptance) -> None:
    from quotes.actions.accepting import mark_done
    from tests.cast import builder

    mark_done(acceptance=build, by=builder(), now=datetime(2026, 12, 30, 16, tzinfo=UTC))

    sheet = sheet_of_invoice(cast.invoiced(build, now=NEXT_YEAR))

    assert (sheet.number, sheet.issued_on, sheet.supplied_on) == (
        "I-2027-0001",
        date(2027, 1, 8),
        date(2026, 12, 30),
    )


def test_the_day_of_supply_can_be_set(build: Acceptance) -> None:
    draft = cast.changed(cast.drafted(build), lambda content: content, supplied_on=date(2026, 11, 20))

    assert sheet_of_invoice(cast.issue(draft)).supplied_on == date(2026, 11, 20)


def test_a_job_over_the_year_end_takes_last_years_deposit_off(build: Acceptance) -> None:
    deposit = cast.deposited(build)

    invoice = cast.invoiced(build, now=NEXT_YEAR)

    assert (deposit.number, invoice.number) == ("D-2026-0001", "I-2027-0001")
    assert invoice.due == cast.GROSS - cast.DEPOSIT
    assert sheet_of_invoice(invoice).preceding[0].issued_on == NOW.date()


def test_each_year_and_kind_counts_for_itself(db: None) -> None:
    for name in ("H4-1", "H4-2"):
        cast.invoiced(cast.build(name))
    cast.credited(Invoice.objects.get(number="I-2026-0002"))

    assert cast.invoiced(cast.build("H4-3"), now=NEXT_YEAR).number == "I-2027-0001"
    assert set(Invoice.objects.values_list("number", flat=True)) == {
        "I-2026-0001",
        "I-2026-0002",
        "C-2026-0001",
        "I-2027-0001",
    }


def test_one_series_through_the_years(build: Acceptance) -> None:
    cast.keep_settings(series="kind")

    first = cast.invoiced(build)
    second = cast.invoiced(cast.build("H4-2"), now=NEXT_YEAR)

    assert (first.number, second.number) == ("I-00001", "I-00002")


def test_the_day_to_pay_is_as_many_days_on_as_the_books_say(build: Acceptance) -> None:
    cast.keep_settings(payment_days=14, payment_words="Within 14 days")

    sheet = sheet_of_invoice(cast.invoiced(build))

    assert (sheet.due_on, sheet.payment_words) == (date(2026, 12, 9), "Within 14 days")


def new_rate(rate: str, now: datetime, valid_from: date | None = None) -> None:
    """The owner changes the rate on the settings page; without a day of its own it holds from that day."""
    settings = settings_now()
    codes = tuple(
        replace(code, components=(TaxComponent("VAT", Decimal(rate)),)) for code in settings.tax_codes
    )
    changed = replace(settings, tax_codes=codes, rates_from={"standard": valid_from} if valid_from else {})
    version = Workshop.objects.get().version
    save_settings(settings=changed, expected_version=version, by=owner(), now=now)


def rates() -> list[tuple[str, str]]:
    return [(str(rate.valid_from), f"{rate.code.rate_pct:.0f}") for rate in tax_rates()["standard"]]


@pytest.mark.parametrize(("supplied_on", "rate"), [("2026-12-14", 20), ("2026-12-15", 22)])
def test_a_rate_changed_between_supply_and_invoice_is_that_of_the_day_of_supply(
    build: Acceptance, supplied_on: str, rate: int
) -> None:
    new_rate("22", cast.LATER)
    draft = cast.changed(
        cast.drafted(build), lambda content: content, supplied_on=date.fromisoformat(supplied_on)
    )

    sheet = sheet_of_invoice(cast.issue(draft, now=cast.LATER + timedelta(days=3)))

    assert sheet.lines[0].rate_pct == rate


def test_a_slip_put_right_the_same_day_leaves_what_held_until_then(build: Acceptance) -> None:
    new_rate("2.2", cast.LATER)
    new_rate("22", cast.LATER)

    assert money_of(date(2026, 12, 14)).tax_codes["standard"].rate_pct == 20
    assert money_of(date(2026, 12, 15)).tax_codes["standard"].rate_pct == 22


def test_settings_kept_without_a_new_rate_remember_nothing(build: Acceptance) -> None:
    new_rate("20", cast.LATER)

    assert not TaxRate.objects.exists()


def test_a_job_over_a_rate_change_bears_the_new_rate_less_the_deposit_at_the_old(build: Acceptance) -> None:
    deposit = cast.deposited(build)
    new_rate("22", NOW, NEW_YEAR)

    invoice = sheet_of_invoice(cast.invoiced(build, now=NEXT_YEAR))

    assert rates() == [("None", "20"), ("2027-01-01", "22")]
    asked = {(line.kind == "deposit", line.rate_pct) for line in invoice.lines}
    assert asked == {(True, Decimal(20)), (False, Decimal(22))}
    assert invoice.sums.gross == round(cast.NET * Decimal("1.22"), 2) - cast.DEPOSIT
    assert sheet_of_invoice(deposit).lines[0].rate_pct == 20
    assert Invoice.objects.get(pk=deposit.pk).sheet == deposit.sheet


def test_a_rate_to_come_leaves_what_is_supplied_before_it_alone(build: Acceptance) -> None:
    new_rate("22", NOW, NEW_YEAR)

    assert sheet_of_invoice(cast.invoiced(build)).sums.gross == cast.GROSS
    assert shop_rules(NEW_YEAR - timedelta(days=1)).tax_codes["standard"].rate_pct == 20
    assert shop_rules(NEW_YEAR).tax_codes["standard"].rate_pct == 22


def test_a_rate_begins_on_no_day_before_the_latest(build: Acceptance) -> None:
    new_rate("22", NOW, NEW_YEAR)

    with pytest.raises(ValidationError, match="2026-12-31 is before 2027-01-01"):
        new_rate("23", NOW, NEW_YEAR - timedelta(days=1))
    new_rate("20", NOW, NEW_YEAR)
    assert rates() == [("None", "20")]
