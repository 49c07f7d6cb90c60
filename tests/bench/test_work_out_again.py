"""Working a job's quote out again with what its teardown showed."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from quotes.actions.bench.jobs import move
from quotes.actions.bench.refused import NoQuote, NotStripped
from quotes.actions.bench.work_out_again import Offer, offer_worked_again, work_out_again
from quotes.actions.books.extra_work import answer_extra_work
from quotes.actions.refused import RequestFaults
from quotes.calc.ask.request import Edits, OwnLine
from quotes.models import ExtraWork, ExtraWorkState, Job, Quote, WorkedAgain
from quotes.queries.bench.again.worked_again import is_behind, proposed
from quotes.queries.comparison import comparison_for
from quotes.queries.sheets import request_of
from tests.bench.cast import LATER, NOW, job, leave
from tests.bench.teardown_rows import found, read
from tests.books.cast import vat_shop
from tests.cast import builder, desk
from tests.quotes import cast
from tests.shipped import load_shipped

pytestmark = pytest.mark.django_db
WIPED = "rod_bearing_wiped"


@pytest.fixture(autouse=True)
def shop() -> None:
    vat_shop()
    load_shipped()


def stripped(of: Job) -> Job:
    leave(of)
    move(job=of, step="stripped", by=builder(), now=NOW)
    return Job.objects.joined().get(pk=of.pk)


def quoted_job(**change: Any) -> Job:
    """A stripped engine whose quote is a draft for a mild build."""
    quote = cast.draft(cast.engine(cast.customer()), **({"tiers": ("mild",)} | change))
    return stripped(job(quote=quote))


def accepted_job() -> Job:
    """The same with a yes to what was worked out before the strip-down."""
    quote = cast.draft(cast.engine(cast.customer()), tiers=("mild",))
    revision = cast.issued(quote, comparison=comparison_for(request_of(quote)), papers=False)
    cast.accepted(revision, papers=False)
    return stripped(job(quote=quote))


def worn(of: Job, **change: Any) -> None:
    """A skirt past its limit in the second cylinder."""
    fields: dict[str, Any] = {
        "place": "cylinder 2",
        "standard_low": Decimal("67.0"),
        "limit": Decimal("66.97"),
        "bad_when": "below",
        "limit_source": "Shop manual, page 4-12",
    }
    read(of, "piston", verdict="past", **(fields | change))


def again(of: Job) -> Any:
    return work_out_again(job=of, by=desk(), now=LATER)


def test_before_the_yes_it_becomes_a_draft_with_every_edit_kept() -> None:
    own = OwnLine(description="Loom repaired", quantity=Decimal(1), unit_price=Decimal(40))
    row = quoted_job(edits={"mild": Edits(own_lines=(own,))})
    worn(row)
    assert is_behind(row)
    done = again(row)
    request = request_of(Quote.objects.get())
    assert (done.is_new, done.quote.version, request.stripped) == (True, 2, True)
    assert [(one.component, one.place) for one in request.readings] == [("piston", "cylinder 2")]
    assert request.edits["mild"].own_lines == (own,)
    assert request.engine == cast.asked()
    assert not is_behind(Job.objects.joined().get(pk=row.pk))


def test_pressed_twice_with_nothing_new_it_says_so_and_changes_nothing() -> None:
    row = quoted_job()
    worn(row)
    again(row)
    assert not again(row).is_new
    assert Quote.objects.get().version == 2


def test_a_fault_names_the_reading_and_its_place_and_loses_nothing() -> None:
    row = quoted_job()
    worn(row, standard_low=None)
    with pytest.raises(RequestFaults) as refused:
        again(row)
    [fault] = refused.value.faults
    assert fault.field == "reading skirt diameter, cylinder 2, limit"
    assert Quote.objects.get().version == 1


def test_without_a_quote_and_before_the_strip_down_it_says_what_is_to_be_done() -> None:
    bare = job()
    with pytest.raises(NoQuote, match="make one"):
        again(bare)
    row = job(quote=cast.draft(cast.engine(cast.customer("Tove Halden"), "H4-20418")))
    with pytest.raises(NotStripped, match="not stripped"):
        again(row)


def test_after_the_yes_it_is_proposed_and_nothing_is_offered_by_itself() -> None:
    row = accepted_job()
    found(row, WIPED, place="cylinder 2")
    done = again(row)
    assert done.is_new
    assert done.proposal is not None
    assert proposed(done.proposal).adds.lines
    assert not ExtraWork.objects.exists()
    assert again(row).proposal == done.proposal
    assert WorkedAgain.objects.count() == 1


def test_a_proposal_is_offered_once_with_its_finding_and_counts_as_had() -> None:
    row = accepted_job()
    seen = found(row, WIPED, place="cylinder 2", judged="stop")
    made = again(row).proposal
    offer = Offer("A rod bearing is wiped", risk="It stops the engine")
    extra = offer_worked_again(again=made, offer=offer, by=desk(), now=LATER)
    assert (extra.state, extra.words) == (ExtraWorkState.OFFERED, "A rod bearing is wiped")
    assert set(extra.components) == set(proposed(made).adds.components)
    assert offer_worked_again(again=made, offer=offer, by=desk(), now=LATER) == extra
    assert not again(row).is_new
    assert extra.finding == seen


def test_what_the_customer_said_no_to_is_not_proposed_again_until_more_is_found() -> None:
    row = accepted_job()
    found(row, WIPED, place="cylinder 2", judged="stop")
    made = again(row).proposal
    extra = offer_worked_again(again=made, offer=Offer("A bearing is wiped"), by=desk(), now=LATER)
    answer_extra_work(
        extra=extra, accepted=False, name="Marel Otten", how="in writing, signed", by=desk(), now=LATER
    )
    assert not again(row).is_new
    assert not is_behind(row)
    found(row, "spring_weak", component="valve_spring")
    assert set(proposed(made).adds.components) <= set(proposed(again(row).proposal).adds.components)
