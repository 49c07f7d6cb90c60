"""One engine from the door to the day it is due again: the builder on a tablet, the customer on a telephone."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Browser, Page, expect
from pytest_django.live_server_helper import LiveServer

from quotes.actions.quotes import new_link
from quotes.models import FindingSeen, Job, Measured, Quote
from tests.bench.parts_cast import real_comparison
from tests.books.cast import vat_shop
from tests.browser.chromium import PHONE
from tests.browser.conftest import PATIENCE_MS, OpenPage
from tests.browser.line import Line
from tests.browser.steps import sheet_is_sound, sign_in
from tests.cast import desk
from tests.quotes import cast
from tests.shipped import load_shipped

TABLET = (820, 1180)
KEPT = "Everything is kept and sent."


@pytest.fixture
def line(live_server: LiveServer) -> Iterator[Line]:
    between = Line(live_server.url)
    yield between
    between.close()


@pytest.fixture
def tablet(browser: Browser, line: Line) -> Iterator[Page]:
    """The builder's tablet: touched, upright, on a line that may be cut."""
    width, height = TABLET
    context = browser.new_context(
        base_url=line.address, viewport={"width": width, "height": height}, has_touch=True
    )
    context.set_default_timeout(PATIENCE_MS)
    page = context.new_page()
    yield page
    context.close()


@pytest.fixture
def quote(transactional_db: None) -> Quote:
    """What was offered before the engine came: a 600 inline four at 4,000 sprint miles."""
    load_shipped()
    vat_shop()
    made = cast.draft(cast.engine(cast.customer()))
    cast.issued(made, now=timezone.now(), comparison=real_comparison(), papers=False)
    return Quote.objects.get(pk=made.pk)


def taken_in(tablet: Page, quote: Quote) -> Job:
    tablet.goto(f"{reverse('job-new')}?quote={quote.pk}")
    tablet.get_by_label("Who brings it?").fill("Marel Otten")
    tablet.get_by_label("Engine number, as it is stamped").fill("H4-20417")
    tablet.get_by_label("What does it do").fill("Jumps out of fourth")
    sheet_is_sound(tablet)
    tablet.get_by_role("button", name="Take it in").tap()
    expect(tablet.get_by_role("heading", level=1)).to_contain_text("Photos")
    return Job.objects.get(quote=quote)


def stripped_with_leave(tablet: Page, job: Job) -> None:
    tablet.goto(reverse("job-leave", args=[job.pk]))
    for label, sum_ in (("price", "940"), ("put_back_price", "1570"), ("deposit", "0")):
        tablet.locator(f"[name={label}]").fill(sum_)
    tablet.locator("[name=name]").fill("Marel Otten")
    tablet.locator("[name=how]").select_option("signature")
    tablet.locator("[name=if_not]").select_option("in_boxes")
    tablet.get_by_role("button", name="Leave is given").tap()
    expect(tablet.get_by_text("None was agreed.")).to_be_visible()
    tablet.goto(reverse("job", args=[job.pk]))
    tablet.get_by_role("button", name="It is stripped").tap()
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


def test_one_engine_from_the_door_until_it_is_due_again(
    quote: Quote, tablet: Page, line: Line, open_page: OpenPage
) -> None:
    sign_in(tablet, "builder")
    job = taken_in(tablet, quote)
    stripped_with_leave(tablet, job)
    measured_over_a_cut_line(tablet, line, job)
    phone = open_page(PHONE)
    phone.goto(f"/q/{new_link(quote=quote, by=desk(), now=timezone.now()).token}/")
