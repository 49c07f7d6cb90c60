"""The pages of the way out: tests, the last look, the hand-over, and what the customer finds of it."""

from __future__ import annotations

import hashlib
from typing import Any
from uuid import uuid4

from django.test import Client
from django.urls import reverse

from quotes.actions.links import new_link
from quotes.calc.bench.leaving.final_questions import QUESTIONS
from quotes.models import FinalCheck, Job, Release, RunningInRule, TestRun
from quotes.queries.bench.ages.new_lives import new_lives_of
from tests.bench.way_out_cast import closed_record, handed_over, ready_job
from tests.books.page_forms import text_of, typed
from tests.cast import desk, owner
from tests.quotes.cast import NOW
from tests.quotes.enquiry_cast import booking, enquiry


def run(client: Client, of: Job, **change: Any) -> Any:
    given = typed(client.get(reverse("job-test-new", args=[of.pk]), {"name": "Power after"}))
    return client.post(reverse("job-test-new", args=[of.pk]), given | {"key": str(uuid4())} | change)


def test_a_power_is_kept_with_its_dyno(at_bench: Client, of: Job) -> None:
    filled = {"run-dyno": "Roller 2", "run-correction": "ISO 1585", "value-0-figure": "86.5"}
    run(at_bench, of, **filled)

    assert TestRun.objects.get().values == [["Peak power", "86.5", "kW"]]
    assert "Peak power 86.5 kW" in text_of(at_bench.get(reverse("job-test", args=[of.pk])))


def test_a_power_that_no_such_engine_gives_is_refused_and_stays_typed(at_bench: Client, of: Job) -> None:
    filled = {"run-dyno": "Roller 2", "run-correction": "ISO 1585", "value-0-figure": "865"}
    page = run(at_bench, of, **filled)

    assert "Peak power: 865 can't be so: from " in text_of(page)
    assert 'value="865"' in page.content.decode()
    assert not TestRun.objects.exists()


def test_powers_of_two_dynos_are_said_not_to_compare(at_bench: Client, of: Job) -> None:
    filled = {"run-dyno": "Roller 2", "run-correction": "ISO 1585", "value-0-figure": "80"}
    run(at_bench, of, **filled, **{"run-name": "Power before"})
    run(at_bench, of, **filled | {"run-dyno": "Another", "value-0-figure": "90"})

    page = text_of(at_bench.get(reverse("job-test", args=[of.pk])))
    assert "do not compare: the dyno is not the same" in page
    assert "more than before" not in page


def test_a_figure_that_is_none_is_named_and_what_was_typed_stays(at_bench: Client, of: Job) -> None:
    page = run(at_bench, of, **{"value-0-figure": "many", "run-note": "Plugs a good colour"})

    assert "“many”" in text_of(page)
    assert "Plugs a good colour" in page.content.decode()
    assert not TestRun.objects.exists()


def looked(of: Job, **change: str) -> dict[str, str]:
    answers = {f"check-{one.code}": "yes" for one in QUESTIONS}
    news = {f"check-new_{one.component}": "on" for one in new_lives_of(of)}
    how = {"key": str(uuid4()), "check-rings": "thin_steel", "check-bore": "plated"}
    return answers | news | how | change


def test_the_last_look_makes_the_engine_ready(at_bench: Client, of: Job) -> None:
    at_bench.post(reverse("job-check", args=[of.pk]), looked(of))

    assert Job.objects.get(pk=of.pk).step == "ready"
    assert len(FinalCheck.objects.get().done) == len(new_lives_of(of))


def test_what_bears_on_safety_is_asked_for_at_its_question(at_bench: Client, of: Job) -> None:
    page = at_bench.post(reverse("job-check", args=[of.pk]), looked(of, **{"check-lockwire": ""}))

    assert "Not answered: this bears on the rider's safety" in text_of(page)
    assert not FinalCheck.objects.exists()


HANDED = {
    "release-released_to": "Marel Otten",
    "release-shown": "his licence",
    "release-old_parts": "returned",
}


def test_the_desk_is_told_what_is_still_to_pay(client: Client, of: Job) -> None:
    ready_job(of)
    client.force_login(desk())

    page = client.post(reverse("job-release", args=[of.pk]), HANDED)

    assert "EUR 3,186.48 is still to pay" in text_of(page)
    assert not Release.objects.exists()


def test_the_owner_hands_it_over_and_the_papers_are_served_as_stored(client: Client, of: Job) -> None:
    ready_job(of)
    client.force_login(owner())

    consent = {"release-unpaid_consent": "Pays on Friday"}
    page = client.post(reverse("job-release", args=[of.pk]), HANDED | consent, follow=True)
    assert "Orla Venn let it go before that: Pays on Friday." in text_of(page)

    for name in ("job-release-pdf", "job-card-pdf"):
        first, again = (client.get(reverse(name, args=[of.pk])) for _ in range(2))
        assert first.content.startswith(b"%PDF")
        assert first.headers["ETag"] == f'"{hashlib.sha256(again.content).hexdigest()}"'


def test_what_was_agreed_of_the_old_parts_at_the_booking_stands_ready(client: Client, of: Job) -> None:
    ready_job(of)
    Job.objects.filter(pk=of.pk).update(booking=booking(enquiry(of.engine), old_parts="scrapped"))
    client.force_login(desk())

    assert typed(client.get(reverse("job-release", args=[of.pk])))["release-old_parts"] == ["scrapped"]


def test_without_a_record_the_page_says_what_is_missing(at_bench: Client, of: Job) -> None:
    page = text_of(at_bench.get(reverse("job-release", args=[of.pk])))
    assert "not closed yet" in page
    assert "not taken yet" in page

    closed_record(of)
    assert "not closed yet" not in text_of(at_bench.get(reverse("job-release", args=[of.pk])))


def test_the_customer_finds_note_card_and_where_to_report(client: Client, of: Job) -> None:
    handed_over(ready_job(of))
    assert of.quote is not None
    token = new_link(quote=of.quote, by=desk(), now=NOW).token

    page = client.get(reverse("customer-quote", args=[token])).content.decode()

    for name in ("customer-release-pdf", "customer-card-pdf", "customer-service"):
        assert reverse(name, args=[token]) in page
    assert client.get(reverse("customer-card-pdf", args=[token])).content.startswith(b"%PDF")


def test_the_owner_enters_what_the_manual_says(client: Client, of: Job) -> None:
    client.force_login(owner())
    given = {
        "rule-unit": "km",
        "rule-rev_limit_pct": "50",
        "rule-revs_until": "800",
        "rule-oil_at": "1000",
        "rule-manual": "Workshop manual, 4th edition",
        "rule-page": "2-7",
    }

    client.post(reverse("running-in-rule", args=["four600"]), given)
    assert "page 2-7" in text_of(client.get(reverse("running-in-rules")))
    client.post(reverse("running-in-rule", args=["four600"]), {"back": "1"})

    assert not RunningInRule.objects.exists()
