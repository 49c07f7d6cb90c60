"""The findings on pages: ours with its presses, and the customer's own."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from quotes.actions.bench.findings_report import issue_findings
from quotes.actions.bench.jobs import move
from quotes.actions.bench.readings import Read, keep_reading
from quotes.actions.bench.work_out_again import work_out_again
from quotes.actions.links import new_link
from quotes.models import ExtraWork, FindingsReport, Job, Quote, WorkedAgain
from quotes.queries.comparison import comparison_for
from quotes.queries.sheets import request_of
from tests.bench.cast import LATER, NOW, job, leave
from tests.bench.teardown_rows import found, read
from tests.books.cast import vat_shop
from tests.cast import builder, desk
from tests.quotes import cast
from tests.shipped import load_shipped


@pytest.fixture(autouse=True)
def shop(db: None) -> None:
    vat_shop()
    load_shipped()


@pytest.fixture
def at_desk(shop: None) -> Client:
    client = Client()
    client.force_login(desk())
    return client


def found_job(*, accepted: bool = False) -> Job:
    """A mild build quoted before the strip-down; a rod bearing turned out to be wiped."""
    quote = cast.draft(cast.engine(cast.customer()), tiers=("mild",))
    revision = cast.issued(quote, comparison=comparison_for(request_of(quote)), papers=False)
    if accepted:
        cast.accepted(revision, papers=False)
    row = job(quote=quote)
    leave(row)
    move(job=row, step="stripped", by=builder(), now=NOW)
    found(row, "rod_bearing_wiped", judged="stop", component="rod_bearing", place="cylinder 3")
    return Job.objects.joined().get(pk=row.pk)


def page(client: Client, row: Job) -> str:
    return client.get(reverse("findings", args=[row.pk])).content.decode()


def test_the_job_leads_to_its_findings_and_says_that_the_quote_is_behind(at_desk: Client) -> None:
    row = found_job()
    shown = at_desk.get(reverse("job", args=[row.pk])).content.decode()
    assert "Tell the customer what was found" in shown
    assert "the quote does not know all of the teardown yet" in shown


def test_once_they_are_told_the_job_leads_to_the_quote_until_it_is_issued(at_desk: Client) -> None:
    row = found_job()
    at_desk.post(reverse("findings-issue", args=[row.pk]))
    address = reverse("job", args=[row.pk])
    assert "Work the quote out again, and issue it" in at_desk.get(address).content.decode()
    cast.issued(Quote.objects.get(), now=timezone.now() + timedelta(days=1), papers=False)
    assert "Work the quote out again, and issue it" not in at_desk.get(address).content.decode()


def test_a_reading_that_can_hardly_be_right_is_to_be_looked_at_before_it_goes_out(at_desk: Client) -> None:
    row = found_job()
    assert "Look again." not in page(at_desk, row)
    keep_reading(
        job=row,
        read=Read(code="stem_in", place="cylinder 1, intake left", entered="1.6", unit="mm"),
        key=uuid4(),
        by=builder(),
        now=LATER,
    )
    assert (
        "Intake stem to guide, cylinder 1, intake left: 1.6 mm"
        in page(at_desk, row).partition("Look again.")[2]
    )


def test_an_engine_without_a_quote_says_what_is_to_be_done_first(at_desk: Client) -> None:
    row = job()
    assert "No quote yet." in page(at_desk, row)


def test_one_press_leads_to_the_draft_with_what_changed_against_the_first_quote(at_desk: Client) -> None:
    row = found_job()
    sent = at_desk.post(reverse("work-out-again", args=[row.pk]), follow=True)
    assert sent.redirect_chain[-1][0] == reverse("quote", args=[row.quote_id])
    shown = sent.content.decode()
    assert "Against the first quote" in shown
    assert "copper showing, wiped or spun shell" in shown
    again = at_desk.post(reverse("work-out-again", args=[row.pk]), follow=True)
    assert "Nothing new" in again.content.decode()


def test_faults_stand_one_by_one_and_the_page_stays(at_desk: Client) -> None:
    row = found_job()
    read(row, "piston", verdict="past", limit=Decimal("66.97"), bad_when="below", place="cylinder 2")
    shown = at_desk.post(reverse("work-out-again", args=[row.pk])).content.decode()
    assert "Nothing was changed" in shown
    assert "Reading skirt diameter, cylinder 2, limit" in shown


def test_after_the_yes_what_it_adds_is_shown_and_offered_by_a_press_of_its_own(at_desk: Client) -> None:
    row = found_job(accepted=True)
    at_desk.post(reverse("work-out-again", args=[row.pk]))
    assert "Not offered yet." in page(at_desk, row)
    assert "Found at the teardown: rod bearing, cylinder 3: " in page(at_desk, row)
    assert not ExtraWork.objects.exists()
    address = reverse("worked-again-offer", args=[WorkedAgain.objects.get().pk])
    refused = at_desk.post(address, {"words": "", "risk": "Stays typed"}).content.decode()
    assert "the customer reads this" in refused
    assert "Stays typed" in refused
    at_desk.post(address, {"words": "The rod bearing is wiped"})
    assert ExtraWork.objects.get().words == "The rod bearing is wiped"
    assert "Not offered yet." not in page(at_desk, row)


def test_the_customer_reads_the_report_and_what_changed_since_the_strip_down(
    client: Client, at_desk: Client
) -> None:
    row = found_job()
    at_desk.post(reverse("findings-issue", args=[row.pk]))
    assert FindingsReport.objects.get().number == f"{row.number}/F1"
    work_out_again(job=row, by=desk(), now=LATER)
    quote = Quote.objects.get()
    shown = comparison_for(request_of(quote))
    cast.issued(quote, now=LATER, comparison=shown, papers=False)
    token = new_link(quote=quote, by=desk(), now=LATER).token
    own = client.get(reverse("customer-quote", args=[token])).content.decode()
    assert "Since the strip-down" in own
    address = reverse("customer-findings", args=[token, 1])
    assert address in own
    report = client.get(address).content.decode()
    assert "Stop: we must speak with you" in report
    assert "cylinder 3" in report


def test_a_link_opens_no_report_of_another_engine(client: Client) -> None:
    row = found_job()
    issue_findings(job=row, by=desk(), now=LATER)
    other = cast.draft(cast.engine(cast.customer("Tove Halden"), "H4-20418"))
    cast.issued(other, papers=False)
    token = new_link(quote=other, by=desk(), now=LATER).token
    for name, args in (("customer-findings", (1,)), ("customer-findings-pdf", (1,))):
        assert client.get(reverse(name, args=[token, *args])).status_code == 404
    assert client.get(reverse("customer-findings-photo", args=[token, 1, "0" * 64])).status_code == 404
