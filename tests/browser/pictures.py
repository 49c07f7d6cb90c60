"""Takes the README's pictures from the demo: `make pictures`."""

from __future__ import annotations

import os
import subprocess
from io import BytesIO
from pathlib import Path

import django
from django.db.models import Count
from django.urls import reverse
from django.utils import timezone
from PIL import Image
from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser.chromium import DESK, PHONE, TABLET, launch
from tests.browser.served import SITE, served

# Models can be imported only once Django stands; the data is the demo's own (DATA_DIR).
os.environ["DJANGO_SETTINGS_MODULE"] = "quotes.settings"
os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"
django.setup()

from django.contrib.auth.models import User  # noqa: E402

from catalogue.models.price_list import ListState, PriceList  # noqa: E402
from quotes.actions.files import quote_pdf_file  # noqa: E402
from quotes.actions.links import new_link  # noqa: E402
from quotes.management.commands.load_demo import demo_password  # noqa: E402
from quotes.management.demo import shown_revision  # noqa: E402
from quotes.models import Invoice, InvoiceKind, Job, Quote, Revision  # noqa: E402
from quotes.queries.sheets import sheet_of  # noqa: E402

FOLDER = Path("fixtures/pictures")
TALL = (1280, 1360)
"""Tall enough for the card and the options under it."""
COLOURS = 64
"""Ink on paper needs few: a picture stays under a hundred kilobytes."""


def main() -> None:
    """Writes every picture anew."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    revision = shown_revision()
    quote = revision.quote
    with served(), sync_playwright() as playwright:
        browser = launch(playwright)
        desk = _signed_in(browser, "desk", TALL)
        _take(desk, f"/quotes/{quote.pk}/card/", "new-quote")
        _take(desk, f"/quotes/{quote.pk}/", "worksheet")
        _take(_opened(browser, (PHONE[0], TALL[1])), _customer_link(quote), "customer-phone")
        _numbers(browser, quote)
        _books_and_bench(browser)
        browser.close()
    _first_page_of_pdf(quote_pdf_file(revision=revision).content, "pdf")
    _first_page_of_pdf(_invoice_shown().pdf.content, "invoice-pdf")


def _numbers(browser: Browser, quote: Quote) -> None:
    """What stands behind the figures, as the owner sees it."""
    owner = _signed_in(browser, "owner", DESK)
    owner.goto(f"/quotes/{quote.pk}/")
    owner.locator("table.gives a.from").first.click()
    owner.locator("#origin .parts").first.wait_for()
    _keep(owner.screenshot(), "number")
    season = next(row for row in Revision.objects.order_by("-pk") if _has_a_season(row))
    owner.goto(f"/quotes/{season.quote_id}/")
    _keep(owner.locator("#season").screenshot(), "season")
    _take(_signed_in(browser, "owner", TALL), reverse("life", args=["rings", "hours_mx"]), "life")
    _take(owner, reverse("calibration"), "calibration")


def _has_a_season(revision: Revision) -> bool:
    return any(option.season for option in sheet_of(revision).comparison.options)


def _books_and_bench(browser: Browser) -> None:
    """Pages that the demo's year fills: the owner's, for whom nothing is left out."""
    owner, job = _signed_in(browser, "owner", DESK), _job_shown()
    _take(owner, "/", "day-sheet")
    waiting = PriceList.objects.filter(state=ListState.CHECKED).latest("pk")
    _take(owner, reverse("price-list", args=[waiting.pk]), "price-list")
    _take(owner, reverse("invoice", args=[_invoice_shown().pk]), "invoice")
    _take(owner, reverse("job", args=[job.pk]), "job")
    tablet = _signed_in(browser, "builder", TABLET)
    _take(tablet, reverse("teardown", args=[_job_in_hand().pk]), "teardown-tablet")
    _take(tablet, reverse("findings", args=[job.pk]), "findings-tablet")


def _invoice_shown() -> Invoice:
    """The latest invoice that a customer still owes something of."""
    rows = Invoice.objects.filter(kind=InvoiceKind.INVOICE).select_related("pdf")
    return rows.filter(item__open_amount__gt=0).latest("issued_at")


def _job_shown() -> Job:
    """The engine that was measured most."""
    return Job.objects.annotate(read=Count("readings")).order_by("-read", "pk")[0]


def _job_in_hand() -> Job:
    """The engine on the bench that was measured most."""
    rows = Job.objects.in_the_shop().annotate(read=Count("readings"))
    return rows.order_by("-read", "pk")[0]


def _signed_in(browser: Browser, name: str, size: tuple[int, int]) -> Page:
    page = _opened(browser, size)
    page.goto("/sign-in/")
    page.get_by_label("Your sign-in name").fill(name)
    page.get_by_label("Password").fill(demo_password())
    page.keyboard.press("Enter")
    page.wait_for_load_state("networkidle")
    return page


def _opened(browser: Browser, size: tuple[int, int]) -> Page:
    width, height = size
    return browser.new_context(base_url=SITE, viewport={"width": width, "height": height}).new_page()


def _take(page: Page, address: str, name: str) -> None:
    page.goto(address)
    page.wait_for_load_state("networkidle")
    _keep(page.screenshot(), name)


def _keep(content: bytes, name: str) -> None:
    path = FOLDER / f"{name}.png"
    with Image.open(BytesIO(content)) as picture:
        few = picture.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
        few.save(path, optimize=True)
    print(f"{path}: {path.stat().st_size // 1024} kB")


def _customer_link(quote: Quote) -> str:
    """A link as the customer gets it."""
    made = new_link(quote=quote, by=User.objects.get(username="desk"), now=timezone.now())
    return reverse("customer-quote", args=[made.token])


def _first_page_of_pdf(content: bytes, name: str) -> None:
    drawing = ["pdftoppm", "-png", "-r", "100", "-f", "1", "-l", "1", "-singlefile", "-"]
    _keep(subprocess.run(drawing, input=content, capture_output=True, check=True).stdout, name)


if __name__ == "__main__":
    main()
