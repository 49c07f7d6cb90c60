"""After the hand-over: reports never run backwards unseen, failures teach, reminders are kept."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from django.test import Client
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from quotes.actions.bench.after import (
    Failure,
    Reported,
    gather_evidence,
    keep_failure,
    keep_reminder,
    report_service,
)
from quotes.actions.bench.refused import ReportRunsBackwards
from quotes.actions.links import new_link
from quotes.documents.bench.logbook import logbook_pdf
from quotes.models import Engine, Evidence, Job, Reminder, Segment, ServiceReport
from quotes.queries.bench.ages.after import due_list, due_of, engine_now, with_after
from quotes.queries.bench.ages.logbook import logbook
from tests.bench.cast import built_job, job, released
from tests.bench.teardown_rows import found, read
from tests.books.page_forms import text_of, typed
from tests.cast import builder, desk, owner
from tests.quotes.cast import NOW, ON
from tests.shipped import load_shipped

# Plain rows, such as the other files of the bench keep on both databases.
pytestmark = pytest.mark.one_database

MONTH = timedelta(days=30)
TOLD = Reported(
    amount=Decimal(300), unit="mi", on=ON + MONTH, name="Marel Otten", how="on his page", duty="sprint"
)


@pytest.fixture
def fetched(db: None) -> Job:
    """A job whose engine ran 1,200 sprint miles before, was built and fetched."""
    load_shipped()
    of = built_job()
    Engine.objects.filter(pk=of.engine_id).update(history_known=True, fitted="mild")
    of.engine.segments.all().delete()
    Segment.objects.create(engine=of.engine, order=0, amount=1200, unit="mi", duty="sprint", tier="mild")
    return released(of)


def reread(of: Job) -> Engine:
    return with_after(Engine.objects.filter(pk=of.engine_id)).get()


def report(of: Job, **change: object) -> ServiceReport:
    corrects = bool(change.pop("corrects", False))
    key = change.pop("key", uuid4())
    told = replace(TOLD, **change)  # type: ignore[arg-type]
    return report_service(engine=of.engine, told=told, key=key, now=NOW + 2 * MONTH, corrects=corrects)  # type: ignore[arg-type]


def test_what_was_reported_counts_as_service_since_the_hand_over(fetched: Job) -> None:
    report(fetched)

    history = engine_now(reread(fetched)).history
    assert history is not None
    assert [(one.amount, one.duty, one.tier) for one in history] == [
        (Decimal(1200), "sprint", "mild"),
        (Decimal(300), "sprint", "mild"),
    ]


def test_a_later_total_stands_for_the_earlier_one(fetched: Job) -> None:
    report(fetched)
    report(fetched, amount=Decimal(700), on=ON + 2 * MONTH)

    history = engine_now(reread(fetched)).history
    assert history is not None
    assert history[-1].amount == 700


@pytest.mark.parametrize("change", [{"amount": Decimal(299)}, {"unit": "km", "amount": Decimal(400)}])
def test_a_total_that_runs_backwards_is_asked_about(fetched: Job, change: dict[str, object]) -> None:
    report(fetched)

    with pytest.raises(ReportRunsBackwards, match="300 mi was reported on"):
        report(fetched, **change)

    report(fetched, **change, corrects=True)
    assert ServiceReport.objects.standing().count() == 1


def test_a_report_sent_twice_is_kept_once(fetched: Job) -> None:
    key = uuid4()

    assert report(fetched, key=key) == report(fetched, key=key)


def test_a_report_of_a_day_to_come_is_refused(fetched: Job) -> None:
    with pytest.raises(ValidationError, match="has not come yet"):
        report(fetched, on=ON + 3 * MONTH)


def test_what_is_due_moves_with_what_was_reported(fetched: Job) -> None:
    before = due_of(reread(fetched), ON).first
    report(fetched)
    after = due_of(reread(fetched), ON + MONTH).first

    assert before is not None
    assert after is not None
    assert after.amount == pytest.approx(before.amount - 300)


def test_an_engine_that_came_back_is_reckoned_from_its_intake(fetched: Job) -> None:
    report(fetched)

    job(engine=fetched.engine, now=NOW + 3 * MONTH)

    history = engine_now(reread(fetched)).history
    assert history is not None
    assert len(history) == 1


def test_a_failure_is_kept_with_who_pays_and_teaches_how_long_the_part_lasted(fetched: Job) -> None:
    report(fetched)
    told = Failure(
        component="valve_spring",
        words="Broken at the third meeting",
        outcome="failed",
        on=ON + MONTH,
        who_pays="life",
        shop_share_pct=Decimal(0),
    )

    row = keep_failure(engine=reread(fetched), told=told, key=uuid4(), by=owner(), now=NOW + 2 * MONTH)

    learned = Evidence.objects.get(failure=row)
    assert (learned.outcome, learned.exit, learned.unit, learned.duty) == (
        "failed",
        Decimal(1500),
        "mi",
        "sprint",
    )
    assert row.job == fetched


def test_a_teardown_teaches_failed_worn_and_still_sound_once(db: None) -> None:
    load_shipped()
    of = built_job()
    Engine.objects.filter(pk=of.engine_id).update(history_known=True)
    of.engine.segments.all().delete()
    Segment.objects.create(engine=of.engine, order=0, amount=4100, unit="mi", duty="sprint")
    of = Job.objects.joined().get(pk=of.pk)
    found(of, "dogs_rounded", component="gear_4", judged="stop")
    read(of, "piston", verdict="within")
    read(of, "valve_guide", verdict="past")

    gather_evidence(job=of, now=NOW)
    assert gather_evidence(job=of, now=NOW) == 0

    told = dict(Evidence.objects.values_list("component", "outcome"))
    assert (told["gear_4"], told["piston"], told["valve_guide"]) == ("failed", "sound", "past_limit")
    assert set(Evidence.objects.values_list("exit", flat=True)) == {Decimal(4100)}


def test_a_reminder_is_kept_once_a_day(fetched: Job) -> None:
    for _ in range(2):
        keep_reminder(engine=fetched.engine, words="Dear Marel", due_on=None, by=desk(), now=NOW)

    assert Reminder.objects.count() == 1


def test_the_logbook_says_what_happened_when_and_by_whom(fetched: Job) -> None:
    report(fetched)

    sheet = logbook(reread(fetched), ON + MONTH)

    told = [(one.what, one.words) for one in sheet.entries]
    assert ("service", "1200 miles of sprint road race, tuned as mild build") in told
    assert ("reported", "300 miles since the hand-over") in told
    assert ("valve spring (set per valve)", "1,500 miles") in sheet.parts
    assert logbook_pdf(sheet).startswith(b"%PDF")


@pytest.mark.parametrize("many", [1, 20])
def test_the_due_list_takes_the_same_queries_for_one_engine_and_twenty(
    db: None, many: int, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    load_shipped()
    for number in range(many):
        released(job(number=f"H4-{number:05}"))
    due_list(ON)

    with django_assert_max_num_queries(9):
        assert len(due_list(ON)) == many


def test_the_customer_reports_on_his_page_and_reads_what_is_due(client: Client, fetched: Job) -> None:
    assert fetched.quote is not None
    token = new_link(quote=fetched.quote, by=desk(), now=NOW).token
    address = reverse("customer-service", args=[token])
    form = typed(client.get(address), "#report") | {
        "service-amount": "300",
        "service-unit": "mi",
        "service-on": f"{ON}",
        "service-name": "Marel Otten",
    }

    client.post(address, form)
    client.post(address, form)

    assert ServiceReport.objects.get().amount == 300
    assert "300 mi up to" in text_of(client.get(address))


def test_less_than_before_is_asked_on_the_page_and_kept_as_a_correction(client: Client, fetched: Job) -> None:
    report(fetched, on=ON)
    assert fetched.quote is not None
    address = reverse("customer-service", args=[new_link(quote=fetched.quote, by=desk(), now=NOW).token])
    form = typed(client.get(address), "#report") | {
        "service-amount": "200",
        "service-unit": "mi",
        "service-on": f"{ON}",
        "service-name": "Marel Otten",
    }

    page = text_of(client.post(address, form))
    assert "an engine does not run backwards" in page
    client.post(address, form | {"service-corrects": "on"})

    assert ServiceReport.objects.standing().get().amount == 200


def test_an_engine_that_was_not_fetched_reports_nothing(client: Client, db: None) -> None:
    of = built_job()
    assert of.quote is not None
    token = new_link(quote=of.quote, by=desk(), now=NOW).token

    assert client.get(reverse("customer-service", args=[token])).status_code == 404


def test_the_desk_reads_the_due_list_and_keeps_a_reminder(client: Client, fetched: Job) -> None:
    client.force_login(desk())
    assert "H4-20417" in text_of(client.get(reverse("due-list")))
    address = reverse("engine-due", args=[fetched.engine_id])

    client.post(address, typed(client.get(address), ""))

    assert Reminder.objects.get().words.startswith("Dear Marel Otten,")


def test_the_builder_writes_a_failure_report(client: Client, fetched: Job) -> None:
    client.force_login(builder())
    address = reverse("failure-new", args=[fetched.engine_id])
    form = typed(client.get(address), "") | {
        "failure-component": "valve_spring",
        "failure-words": "Broken at the third meeting",
        "failure-outcome": "failed",
        "failure-who_pays": "life",
        "failure-shop_share_pct": "0",
    }

    page = client.post(address, form, follow=True)

    assert "Who pays life used up; our share 0 %" in text_of(page)


def test_the_owner_reads_what_the_record_offers(client: Client, db: None) -> None:
    client.force_login(owner())

    assert "Nothing yet." in text_of(client.get(reverse("learned")))
