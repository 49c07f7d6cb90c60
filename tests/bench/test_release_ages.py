"""Which ages begin anew with the hand-over, and what is kept before they do."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest

from quotes.actions.bench.after import Reported, report_service
from quotes.actions.bench.lifed_parts import Before, register
from quotes.actions.bench.part_moves import MovedWhen, fit
from quotes.actions.bench.release_refused import AgreedSince
from quotes.models import Engine, Evidence, ExtraWork, Job
from quotes.queries.bench.ages.at_the_end import engine_at_end
from tests.bench.cast import LATER, job
from tests.bench.teardown_rows import read
from tests.bench.way_out_cast import LEAVES, handed_over, looked_over, mild_four, ready_job, renewed
from tests.cast import builder, shipped
from tests.quotes.cast import NOW, ON
from tests.shipped import load_shipped

# Plain rows; what the hand-over refuses and numbers is asked on both databases, in test_release.py.
pytestmark = pytest.mark.one_database


@pytest.fixture
def of(db: None) -> Job:
    load_shipped()
    return mild_four()


def test_ages_begin_anew_exactly_where_something_was_renewed(of: Job) -> None:
    check = ready_job(of).final_checks.get()

    handed_over(of)

    assert check.done
    assert renewed(of) == dict.fromkeys(check.done, Decimal(4100)) | {"oil_pump": Decimal(3000)}
    assert Engine.objects.get(pk=of.engine_id).fitted == "mild"


def test_what_was_not_fitted_after_all_keeps_its_age(of: Job) -> None:
    left = ready_job(of, but=frozenset({"valve_spring"})).final_checks.get()

    handed_over(of)

    assert "valve_spring" in left.asked
    assert "valve_spring" not in renewed(of)


def test_evidence_is_kept_of_the_age_that_was_and_not_of_the_new_one(of: Job) -> None:
    read(of, "valve_spring", verdict="within")

    handed_over(ready_job(of))

    lasted = Evidence.objects.get(component="valve_spring")
    assert (lasted.exit, lasted.outcome, lasted.tier) == (Decimal(4100), "sound", "refresh")
    assert lasted.ran == pytest.approx(4100)
    assert lasted.ran_at_entry == 0


def test_what_intake_knew_beyond_the_record_is_run_before_the_new_lives(of: Job) -> None:
    Job.objects.filter(pk=of.pk).update(service_amount=4600, duty="sprint", service_unit="mi")

    handed_over(ready_job(of))

    assert renewed(of)["valve_spring"] == Decimal(4600)


def test_what_was_reported_since_the_last_hand_over_is_run_before_the_new_lives(of: Job) -> None:
    handed_over(ready_job(of))
    told = Reported(amount=Decimal(900), unit="mi", on=LEAVES.date(), name="Marel Otten", how="by telephone")
    report_service(engine=of.engine, told=told, key=uuid4(), now=LEAVES)

    back = job(engine=of.engine, now=LATER, service_amount=None, service_known="unknown", service_unit="")
    ran = engine_at_end(Job.objects.joined().get(pk=back.pk), shipped("four600")).history

    assert ran is not None
    assert [(one.amount, one.tier) for one in ran] == [
        (Decimal(4100), "refresh"),
        (Decimal(900), "mild"),
    ]


def test_a_part_with_its_own_age_is_out_when_a_new_one_stands_in_its_place(of: Job) -> None:
    springs = register(component="valve_spring", type_code="four600", serial="V-7", before=Before(Decimal(0)))
    Job.objects.filter(pk=of.pk).update(received_at=NOW)
    fit(part=springs, engine=of.engine, move=MovedWhen(ON - timedelta(days=30)), by=builder(), now=NOW)

    handed_over(ready_job(of))

    assert springs.stays.get().until_on == ON
    assert renewed(of)["valve_spring"] == Decimal(4100)


def test_what_was_agreed_since_the_last_look_is_looked_at_first(of: Job) -> None:
    ready_job(of)
    assert of.quote is not None
    line = {
        "kind": "part",
        "description": "Output seal",
        "quantity": "1",
        "unit": "each",
        "unit_price": "9",
        "tax_code": "standard",
        "component": "output_seal",
    }
    ExtraWork(
        build=of.quote.acceptance,
        index=1,
        words="A seal",
        lines=[line],
        net=Decimal(9),
        tax=Decimal(0),
        gross=Decimal(9),
        state="within",
        offered_at=NOW,
        offered_by=builder(),
    ).save()

    with pytest.raises(AgreedSince, match="output"):
        handed_over(of)
    looked_over(of)
    handed_over(of)

    assert "output_seal" in renewed(of)
