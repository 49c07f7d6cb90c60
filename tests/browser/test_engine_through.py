"""One engine from the door to the day it is due again: the builder on a tablet, the customer on a phone."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Locator, Page, expect

from quotes.actions.issuing import issue
from quotes.actions.links import new_link
from quotes.models import FindingSeen, Job, Measured, Quote, RenewedPart
from tests.bench.cast import written_down
from tests.bench.parts_cast import real_comparison
from tests.books.cast import vat_shop
from tests.browser.chromium import PHONE, TABLET
from tests.browser.conftest import OpenPage
from tests.browser.line import Line
from tests.browser.steps import sheet_is_sound, sign_in
from tests.cast import desk
from tests.quotes import cast
from tests.shipped import load_shipped

KEPT = "Everything is kept and sent."


@pytest.fixture
def quote(transactional_db: None) -> Quote:
    """What was offered before the engine came: a 600 inline four at 4,000 sprint miles."""
    load_shipped()
    vat_shop(currency="USD")
    made = cast.draft(cast.engine(cast.customer()))
    first = real_comparison().model_copy(update={"currency": "USD"})
    cast.issued(made, now=timezone.now(), comparison=first, papers=False)
    return Quote.objects.get(pk=made.pk)


def press(within: Page | Locator, name: str) -> None:
    """Presses a button and waits until its answer is there."""
    page = within if isinstance(within, Page) else within.page
    with page.expect_navigation():
        within.get_by_role("button", name=name).click()


def taken_in(tablet: Page, quote: Quote) -> Job:
    tablet.goto(f"{reverse('job-new')}?quote={quote.pk}")
    tablet.get_by_label("Who brings it?").fill("Marel Otten")
    tablet.get_by_label("Engine number, as it is stamped").fill("H4-20417")
    tablet.get_by_label("What does it do").fill("Jumps out of fourth")
    sheet_is_sound(tablet)
    press(tablet, "Take it in")
    expect(tablet.get_by_role("heading", level=1)).to_contain_text("Photos")
    return Job.objects.get(quote=quote)


def stripped_with_leave(tablet: Page, job: Job) -> None:
    tablet.goto(reverse("job-leave", args=[job.pk]))
    for label, sum_ in (("price", "940"), ("put_back_price", "1570"), ("deposit", "0")):
        tablet.locator(f"[name={label}]").fill(sum_)
    tablet.locator("[name=name]").fill("Marel Otten")
    tablet.locator("[name=how]").select_option("signature")
    tablet.locator("[name=if_not]").select_option("in_boxes")
    press(tablet, "Leave is given")
    expect(tablet.get_by_text("None was agreed.")).to_be_visible()
    tablet.goto(reverse("job", args=[job.pk]))
    press(tablet, "It is stripped")
    expect(tablet.get_by_role("rowheader", name="Stripped")).to_be_visible()


def measured_over_a_cut_line(tablet: Page, line: Line, job: Job) -> None:
    tablet.goto(reverse("teardown", args=[job.pk]))
    expect(tablet.locator("#kept")).to_have_text(KEPT)
    line.set("cut")
    for at, text in enumerate(("0.03", "0.21", "0.04")):
        tablet.locator(f"[name='r:fork_pad:{at}']").fill(text)
        tablet.keyboard.press("Tab")
    tablet.get_by_label("Find", exact=True).fill("dogs")
    tablet.get_by_text("Rounded dogs, jumps out of gear").tap()
    tablet.locator("[name=component]").select_option("gear_4")
    tablet.get_by_text("Renew, and look at its companions").tap()
    tablet.get_by_role("button", name="Keep this finding").tap()
    expect(tablet.locator("#kept")).to_have_text("Kept on this tablet, 4 waiting.")
    assert not Measured.objects.exists()
    line.set("whole")
    tablet.get_by_role("button", name="Send now").tap()
    expect(tablet.locator("#kept")).to_have_text(KEPT)
    assert (Measured.objects.count(), FindingSeen.objects.get().component) == (3, "gear_4")


def worked_out_again_and_told(tablet: Page, job: Job) -> None:
    tablet.goto(reverse("findings", args=[job.pk]))
    press(tablet, "Work it out again")
    expect(tablet).to_have_url(re.compile(reverse("quote", args=[job.quote_id])))
    tablet.goto(reverse("findings", args=[job.pk]))
    expect(tablet.get_by_text("All that was measured and found is in it.")).to_be_visible()
    expect(tablet.get_by_text("shift drum, look").first).to_be_visible()
    sheet_is_sound(tablet)
    press(tablet, "Issue the findings")
    expect(tablet.get_by_role("link", name="PDF").first).to_be_visible()


def says_yes(phone: Page, job: Job) -> None:
    quote = Quote.objects.get(job=job)
    issue(quote=quote, by=desk(), now=timezone.now(), class_tick=True, papers=False)
    phone.goto(f"/q/{new_link(quote=quote, by=desk(), now=timezone.now()).token}/")
    phone.locator("#findings").get_by_role("link").first.click()
    expect(phone.get_by_text("shift drum, look").first).to_be_visible()
    sheet_is_sound(phone)
    phone.go_back()
    yes = phone.locator("#yes")
    yes.get_by_role("radio", name=re.compile("^Refresh")).check()
    yes.get_by_label("Your name").fill("Marel Otten")
    yes.get_by_label("I say yes as").select_option(index=1)
    for promise in ("what is left as it is", "the cautions and the terms"):
        box = yes.get_by_role("checkbox", name=re.compile(promise))
        if box.count():
            box.check()
    phone.get_by_role("button", name="Say yes to what I picked").click()
    expect(phone.get_by_role("heading", level=1)).to_contain_text("Thank you: yes to")


def put_together_and_recorded(tablet: Page, job: Job) -> None:
    """The gear is written down by hand; everything else stands already, as the builder wrote it."""
    tablet.goto(reverse("job", args=[job.pk]))
    press(tablet, "Assembly begins")
    written_down(job, but="new_gear_4")
    tablet.goto(reverse("record", args=[job.pk]))
    expect(tablet.get_by_text("entries are missing.")).to_be_visible()
    tablet.get_by_role("link", name=re.compile("^New")).first.tap()
    gear = tablet.locator("#c-gear_4")
    gear.get_by_text("Fitted new").tap()
    gear.get_by_label("Part number").fill("G4-600")
    sheet_is_sound(tablet)
    press(gear, "Keep")
    tablet.goto(reverse("record", args=[job.pk]))
    expect(tablet.get_by_text("Nothing is missing.")).to_be_visible()
    press(tablet, "Close the record")
    expect(tablet.get_by_role("link", name="The record on paper")).to_be_visible()


def looked_over(tablet: Page, job: Job) -> None:
    tablet.goto(reverse("job-check", args=[job.pk]))
    for answer in tablet.locator(".last-look").get_by_text("Yes", exact=True).all():
        answer.tap()
    tablet.locator("[name=check-rings]").select_option("thin_steel")
    tablet.locator("[name=check-bore]").select_option("plated")
    sheet_is_sound(tablet)
    press(tablet, "It is ready")
    expect(tablet.get_by_text("only he may let it go before")).to_be_visible()


def handed_over_by_the_owner(tablet: Page, job: Job) -> None:
    """Not paid yet: only the owner may let it go."""
    sign_in(tablet, "owner")
    tablet.goto(reverse("job-release", args=[job.pk]))
    tablet.get_by_label("Handed to? Full name").fill("Marel Otten")
    tablet.get_by_label("What did he show?").fill("driving licence")
    tablet.get_by_label("Seal number").fill("SY-0099")
    tablet.get_by_label("Old parts").select_option("returned")
    tablet.get_by_label("The owner's word for letting it go unpaid").fill("Pays by transfer on Monday")
    sheet_is_sound(tablet)
    press(tablet, "Hand it over")
    expect(tablet.get_by_role("link", name="Release note, to be signed")).to_be_visible()


def test_one_engine_from_the_door_until_it_is_due_again(
    quote: Quote, cut_off: Page, line: Line, open_page: OpenPage
) -> None:
    tablet = cut_off
    sign_in(tablet, "builder")
    job = taken_in(tablet, quote)
    stripped_with_leave(tablet, job)
    measured_over_a_cut_line(tablet, line, job)
    worked_out_again_and_told(tablet, job)
    phone = open_page(PHONE)
    says_yes(phone, job)
    put_together_and_recorded(tablet, job)
    looked_over(tablet, job)
    handed_over_by_the_owner(open_page(TABLET), job)

    tablet.goto(reverse("due-list"))
    expect(tablet.get_by_role("row", name=re.compile("H4-20417"))).to_be_visible()
    phone.get_by_role("link", name="Read the quote again").click()
    expect(phone.get_by_role("link", name=re.compile("How to run it in"))).to_be_visible()
    sheet_is_sound(phone)
    renewed = RenewedPart.objects.filter(engine=job.engine).values_list("component", flat=True)
    assert {"gear_4", "shift_fork", "selector"} <= set(renewed)
    assert "shift_drum" not in renewed
