"""Taking an engine in from the door."""

from __future__ import annotations

from decimal import Decimal
from typing import Any
from uuid import uuid4

import pytest

from quotes.actions.bench.intake import NewEngine, NotOnRecord, RunsBackwards, Wishes, take_in
from quotes.actions.bench.jobs import tie_waiting
from quotes.actions.customers import CustomerDetails
from quotes.actions.enquiry import quote_enquiry
from quotes.models import Customer, Engine, Enquiry, Job
from quotes.queries.bench.intake import earlier_service, engines_found, jobs_of_type
from quotes.queries.engines import engine_asked
from tests.bench.cast import LATER, NOW, given, job
from tests.cast import desk
from tests.quotes import cast, enquiry_cast

pytestmark = pytest.mark.django_db


def taken(engine: Engine | NewEngine | None = None, *, wishes: Wishes | None = None, **change: Any) -> Job:
    owner = Customer.objects.filter(name="Marel Otten").first() or cast.customer()
    what = engine or Engine.objects.filter(number="H4-20417").first() or cast.engine(owner)
    return take_in(
        customer=owner, engine=what, given=given(**change), key=uuid4(), by=desk(), now=LATER, wishes=wishes
    )


def test_an_engine_from_the_door_brings_its_customer_and_itself() -> None:
    key = uuid4()
    for _ in range(2):
        take_in(
            customer=CustomerDetails(name="Ansel Dray", telephone="000 555 0177"),
            engine=NewEngine("twin650", "T7-311"),
            given=given(),
            key=key,
            by=desk(),
            now=NOW,
        )
    row = Job.objects.joined().get()
    assert (row.customer.name, row.engine.number, row.engine.type_code) == ("Ansel Dray", "T7-311", "twin650")
    assert not row.engine.history_known
    assert Customer.objects.count() == 1


def test_less_than_was_known_is_asked_about_and_kept_when_said_again() -> None:
    with pytest.raises(RunsBackwards, match=r"3900 mi is less than 4100(\.00)? mi in the engine's record"):
        taken(service_amount=Decimal(3900))
    assert not Job.objects.exists()
    row = taken(service_amount=Decimal(3900), wishes=Wishes(backwards_is_said=True))
    assert "Stated as 3900 mi, though 4100" in row.steps.get().note
    assert row.service_amount == 3900


def test_what_an_earlier_visit_stated_counts_as_known() -> None:
    first = job(service_amount=Decimal(5000))
    with pytest.raises(RunsBackwards, match=f"5000(.00)? mi at {first.number}, 25 November 2026"):
        taken(first.engine, service_amount=Decimal(4500))


def test_hours_are_taken_beside_miles_without_a_question() -> None:
    assert taken(service_amount=Decimal(60), service_unit="h").service_unit == "h"


def test_what_was_run_since_goes_on_the_record_when_the_desk_says_so() -> None:
    row = taken(service_amount=Decimal(4600), duty="endurance", wishes=Wishes(to_record=True))
    history = engine_asked(row.engine).history
    assert history is not None
    assert [(one.amount, one.duty) for one in history] == [
        (Decimal(4100), "sprint"),
        (Decimal(500), "endurance"),
    ]
    taken(service_amount=Decimal(4700), duty="endurance")
    assert len(engine_asked(row.engine).history or ()) == 2


def test_an_unknown_history_begins_with_what_is_stated() -> None:
    row = taken(NewEngine("single450", "S-9"), wishes=Wishes(to_record=True))
    history = engine_asked(Engine.objects.get(pk=row.engine_id)).history
    assert history is not None
    assert [one.amount for one in history] == [4100]


def test_what_can_not_be_told_from_the_record_stays_off_it() -> None:
    with pytest.raises(NotOnRecord, match="another unit"):
        taken(service_amount=Decimal(60), service_unit="h", wishes=Wishes(to_record=True))
    with pytest.raises(NotOnRecord, match="the use"):
        taken(duty="", wishes=Wishes(to_record=True))
    assert not Job.objects.exists()


def test_two_like_engines_in_the_shop_are_named_with_their_tags() -> None:
    first, second = job(tag="blue 1"), job(number="H4-20999", tag="blue 2")
    assert [row.tag for row in jobs_of_type("four600", first.pk)] == ["blue 2"]
    assert jobs_of_type("four600", second.pk)[0].engine.number == "H4-20417"
    assert jobs_of_type("twin650") == []


def test_an_engine_is_found_by_number_or_owner() -> None:
    row = job()
    assert engines_found("h420417") == [row.engine]
    assert engines_found("otten") == [row.engine]
    assert engines_found("\x00") == []
    assert {one.where for one in earlier_service(row.engine, but=row)} == {"in the engine's record"}


def test_a_booked_engine_new_to_us_is_named_in_its_enquiry_whose_quote_takes_the_job() -> None:
    owner = cast.customer()
    asked = enquiry_cast.enquiry(cast.engine(owner))
    Enquiry.objects.filter(pk=asked.pk).update(engine=None)
    row = take_in(
        customer=owner,
        engine=NewEngine("four600", "H4-20999"),
        given=given(),
        key=uuid4(),
        by=desk(),
        now=LATER,
        booking=enquiry_cast.booking(asked),
    )
    quote = quote_enquiry(enquiry=asked, by=desk(), now=LATER)
    assert quote.engine == row.engine
    assert Job.objects.get(pk=row.pk).quote == quote


def test_a_quote_for_an_engine_that_stands_here_without_one_takes_its_job_and_no_second_one() -> None:
    row = job()
    first, second = cast.draft(row.engine), cast.draft(row.engine)
    for quote in (first, second):
        tie_waiting(quote=quote, by=desk(), now=LATER)
    assert Job.objects.get(pk=row.pk).quote == first
