"""Keeping customers and their engines: with their past, refused at the field, never overwritten unseen."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.customers import CustomerDetails, create_customer, update_customer
from quotes.actions.engines import create_engine, update_engine
from quotes.actions.refused import StaleDraft
from quotes.calc.ask.request import EngineAsked, Renewal, Segment
from quotes.models import Customer, Engine, RenewedPart
from quotes.models import Segment as SegmentRow
from quotes.queries.engines import engine_asked
from tests.quotes import cast
from tests.quotes.cast import NOW

DETAILS = CustomerDetails(name="Marel Otten", telephone="000 555 0199", email="marel@otten.example")
RENEWED = {"clutch_friction": Renewal(at=Decimal(3000), unit="mi", on=date(2026, 6, 1))}


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"name": ""}, "name"),
        ({"name": "M\x00rel"}, "name"),
        ({"name": "M" * 10_000}, "name"),
        ({"address": "a\x00b"}, "address"),
        ({"address": "a" * 10_000}, "address"),
        ({"telephone": "5" * 10_000}, "telephone"),
        ({"email": "marel at otten"}, "email"),
    ],
)
def test_a_customer_that_can_not_be_kept_is_refused_at_the_field(
    db: None, change: dict[str, str], field: str
) -> None:
    with pytest.raises(ValidationError) as told:
        create_customer(details=replace(DETAILS, **change), now=NOW)

    assert list(told.value.message_dict) == [field]
    assert Customer.objects.count() == 0


@pytest.mark.parametrize("typed", ["otten", "OTTEN marel", "555 0199", "marel@otten"])
def test_a_customer_is_found_by_name_telephone_or_email(db: None, typed: str) -> None:
    marel = create_customer(details=DETAILS, now=NOW)
    create_customer(details=CustomerDetails(name="Tove Halden"), now=NOW)

    assert list(Customer.objects.found_by(typed)) == [marel]


def test_accents_do_not_hide_a_customer(db: None) -> None:
    create_customer(details=CustomerDetails(name="Zoë Ångström-Řezníček"), now=NOW)

    assert Customer.objects.found_by("zoe angstrom reznicek").exists()


def test_a_changed_name_is_found_at_once(db: None) -> None:
    marel = create_customer(details=DETAILS, now=NOW)

    update_customer(customer=marel, details=replace(DETAILS, name="Marel Quist"), expected_version=1)

    assert Customer.objects.found_by("quist").exists()
    assert not Customer.objects.found_by("marel otten").filter(name__contains="Otten").exists()


def test_the_second_of_two_people_is_told_what_differs(db: None) -> None:
    marel = create_customer(details=DETAILS, now=NOW)
    update_customer(customer=marel, details=replace(DETAILS, telephone="000 1"), expected_version=1)

    with pytest.raises(StaleDraft) as told:
        update_customer(customer=marel, details=replace(DETAILS, telephone="000 2"), expected_version=1)

    assert [(change.what, change.before, change.after) for change in told.value.changes] == [
        ("telephone", "000 1", "000 2")
    ]
    assert Customer.objects.get().telephone == "000 1"


@pytest.mark.parametrize(
    "asked",
    [
        cast.asked(),
        cast.asked(renewed=RENEWED),
        cast.asked(history=None),
        cast.asked(history=()),
        cast.asked(delivered="in_chassis", fitted="mild", build_cycles={"crankshaft": 1}),
    ],
    ids=["run", "renewed since", "unknown", "new", "in the chassis, mild, reconditioned once"],
)
def test_an_engine_comes_back_as_it_was_kept(customer: Customer, asked: EngineAsked) -> None:
    create_engine(customer=customer, number="H4-20417", asked=asked)

    assert engine_asked(Engine.objects.with_history().get()) == asked


@pytest.mark.both_databases
def test_stretches_of_service_keep_their_order(customer: Customer) -> None:
    stretches = tuple(Segment(amount=Decimal(miles), unit="mi", duty="sprint") for miles in (900, 100, 500))

    create_engine(customer=customer, number="1", asked=cast.asked(history=stretches))

    assert engine_asked(Engine.objects.with_history().get()).history == stretches


def test_a_changed_engine_replaces_its_past_as_a_whole(engine: Engine) -> None:
    fewer = cast.asked(history=(), renewed=RENEWED)

    update_engine(engine=engine, number="H4-20417", asked=fewer, expected_version=1)

    assert engine_asked(Engine.objects.with_history().get()) == fewer
    assert (SegmentRow.objects.count(), RenewedPart.objects.count()) == (0, 1)


def test_an_engine_changed_by_two_is_kept_once_and_told_to_the_second(engine: Engine) -> None:
    update_engine(engine=engine, number="H4-20417", asked=cast.asked(fitted="mild"), expected_version=1)

    with pytest.raises(StaleDraft) as told:
        update_engine(engine=engine, number="H4-20417", asked=cast.asked(fitted="full"), expected_version=1)

    assert [(change.what, change.before, change.after) for change in told.value.changes] == [
        ("tune fitted now", "mild", "full")
    ]


def test_keeping_an_engine_unchanged_counts_no_version(engine: Engine) -> None:
    kept = update_engine(engine=engine, number="H4-20417", asked=cast.asked(), expected_version=1)

    assert kept.version == 1


def test_one_customer_can_not_have_the_same_engine_twice(engine: Engine) -> None:
    with pytest.raises(ValidationError, match="already has an engine of this type and number"):
        create_engine(customer=engine.customer, number="H4-20417", asked=cast.asked())


def test_two_engines_without_a_number_are_two_engines(customer: Customer) -> None:
    for _ in range(2):
        create_engine(customer=customer, number="", asked=cast.asked())

    assert Engine.objects.count() == 2


@pytest.mark.parametrize(
    ("number", "field"), [("H\x004", "number"), ("H" * 10_000, "number")], ids=["NUL", "long"]
)
def test_an_engine_that_can_not_be_kept_leaves_nothing_half(
    customer: Customer, number: str, field: str
) -> None:
    with pytest.raises(ValidationError) as told:
        create_engine(customer=customer, number=number, asked=cast.asked())

    assert list(told.value.message_dict) == [field]
    assert (Engine.objects.count(), SegmentRow.objects.count()) == (0, 0)


def test_a_stretch_that_ends_before_it_begins_is_refused_and_nothing_is_kept(customer: Customer) -> None:
    backwards = Segment(
        amount=Decimal(100), unit="mi", duty="sprint", start=date(2026, 5, 1), end=date(2026, 4, 1)
    )

    with pytest.raises(ValidationError):
        create_engine(customer=customer, number="1", asked=cast.asked(history=(backwards,)))

    assert Engine.objects.count() == 0


@pytest.mark.parametrize("typed", ["H4-20417", "h420417", "20417", "otten 20417"])
def test_an_engine_is_found_by_its_number_with_or_without_its_dash_or_by_its_owner(
    engine: Engine, typed: str
) -> None:
    cast.engine(cast.customer("Tove Halden", telephone="", email=""), "S1-3340")

    assert list(Engine.objects.found_by(typed)) == [engine]
