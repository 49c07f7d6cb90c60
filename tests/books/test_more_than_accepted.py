"""Not more is asked for than was accepted and signed; else the lines are named, or the owner consents."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quotes.actions.books.refused import ConsentIsTheOwners, MissingAcceptance
from quotes.calc.invoice.draft import Draft
from quotes.models import Acceptance, Counter, Invoice
from quotes.queries.books.build import build_account
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import owner

TOO_MUCH = cast.line("Crankshaft straightened", kind="machine_work", unit_price=Decimal(200))
"""240.00 with tax, where 200.00 more than the quote was signed."""


def test_what_the_signed_limit_allows_is_asked_for(build: Acceptance) -> None:
    within = cast.line("Freight", unit_price=Decimal("166.66"))

    cast.issue(cast.changed(cast.drafted(build), cast.with_line(within)))

    assert build_account(build, NOW.date()).beyond == Decimal("199.99")


def test_a_cent_beyond_the_signed_limit_is_refused(build: Acceptance) -> None:
    beyond = cast.line("Freight", unit_price=Decimal("166.68"))

    with pytest.raises(MissingAcceptance) as told:
        cast.issue(cast.changed(cast.drafted(build), cast.with_line(beyond)))

    assert told.value.over == Decimal("0.02")


def test_the_lines_that_no_acceptance_covers_are_named_with_their_sums(build: Acceptance) -> None:
    draft = cast.changed(cast.drafted(build), cast.with_line(TOO_MUCH))

    with pytest.raises(MissingAcceptance) as told:
        cast.issue(draft)

    assert told.value.lines == (("Crankshaft straightened: not accepted", Decimal("240.00")),)
    assert (told.value.asked, told.value.up_to) == (Decimal("3426.48"), Decimal("3386.48"))
    assert "3426.48 EUR would be asked for where 3386.48 is accepted" in str(told.value)
    assert not Invoice.objects.exists()
    assert not Counter.objects.filter(kind="I").exists()


def test_more_of_an_accepted_line_is_named_with_both_quantities(build: Acceptance) -> None:
    def more_hours(content: Draft) -> Draft:
        first = content.lines[0].model_copy(update={"quantity": Decimal("9.3")})
        return content.model_copy(update={"lines": (first, *content.lines[1:])})

    with pytest.raises(MissingAcceptance, match=r"9\.3 h where 6\.8 h was accepted 330\.00"):
        cast.issue(cast.changed(cast.drafted(build), more_hours))


def test_accepted_extra_work_is_on_the_invoice_and_raises_what_may_be_asked(build: Acceptance) -> None:
    cast.extra_work(build)

    invoice = cast.invoiced(build)

    assert invoice.gross == cast.GROSS + 582
    assert build_account(build, NOW.date()).up_to == cast.GROSS + 200 + 582


def test_declined_extra_work_is_not_asked_for(build: Acceptance) -> None:
    cast.extra_work(build, accepted=False)
    cast.extra_work(build, accepted=None, words="Not answered yet")

    assert cast.invoiced(build).gross == cast.GROSS


def test_parts_of_a_build_count_together(build: Acceptance) -> None:
    first = cast.line("Freight", unit_price=Decimal(100))
    cast.issue(cast.changed(cast.drafted(build, kinds=("labour",)), cast.with_line(first)))
    second = cast.line("More freight", unit_price=Decimal(100))

    with pytest.raises(MissingAcceptance) as told:
        cast.issue(cast.changed(cast.drafted(build), cast.with_line(second)))

    assert told.value.over == 40


def test_what_was_credited_may_be_asked_for_again(build: Acceptance) -> None:
    cast.credited(cast.invoiced(build))

    assert cast.invoiced(build).gross == cast.GROSS


@pytest.mark.parametrize("kind", ["storage", "interest", "core"])
def test_what_the_terms_ask_for_is_not_counted_against_the_yes(build: Acceptance, kind: str) -> None:
    draft = cast.changed(
        cast.drafted(build), cast.with_line(cast.line("By the terms", kind=kind, unit_price=Decimal(900)))
    )

    assert cast.issue(draft).net == cast.NET + 900


def test_the_owner_consents_in_writing(build: Acceptance) -> None:
    draft = cast.changed(cast.drafted(build), cast.with_line(TOO_MUCH))

    invoice = cast.issue(draft, by=owner(), consent="Rung up on Friday, he wants it")

    assert invoice.consent == "Rung up on Friday, he wants it"


def test_nobody_else_consents(build: Acceptance) -> None:
    draft = cast.changed(cast.drafted(build), cast.with_line(TOO_MUCH))

    with pytest.raises(ConsentIsTheOwners):
        cast.issue(draft, consent="He will not mind")


def test_blanks_are_no_consent(build: Acceptance) -> None:
    draft = cast.changed(cast.drafted(build), cast.with_line(TOO_MUCH))

    with pytest.raises(MissingAcceptance):
        cast.issue(draft, by=owner(), consent="   ")


def test_a_consent_that_was_not_needed_is_not_kept(build: Acceptance) -> None:
    assert cast.issue(cast.drafted(build), by=owner(), consent="Yes").consent == ""


def test_a_deposit_is_not_more_than_all_that_was_accepted(build: Acceptance) -> None:
    from quotes.actions.books.drafts import start_deposit
    from tests.cast import books

    def dearer(content: Draft) -> Draft:
        line = content.lines[0].model_copy(update={"unit_price": Decimal(3000)})
        return content.model_copy(update={"lines": (line,)})

    draft = cast.changed(start_deposit(build=build, by=books(), now=NOW), dearer)

    with pytest.raises(MissingAcceptance, match="Deposits: more than all that was accepted"):
        cast.issue(draft)
