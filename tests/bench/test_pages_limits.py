"""The pages of the maker's limits and of the workshop's instruments."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.test import Client
from django.urls import reverse

from quotes.models import Instrument, Job, ManualLimit, Measured
from tests.bench.test_pages_teardown import at_bench, of, reading, sheet, take
from tests.books.page_forms import text_of
from tests.shipped import unload

__all__ = ["at_bench", "of"]


def test_the_manuals_figure_stands_before_the_default_from_then_on(at_bench: Client, of: Job) -> None:
    take(at_bench, of, reading())
    type_code = of.engine.type_code
    form = {
        "limit-limit": "0.085",
        "limit-watch": "0,07",
        "limit-manual": "Workshop manual 600",
        "limit-page": "4-12",
    }

    at_bench.post(reverse("limit", args=[type_code, "stem_ex"]), form)
    take(at_bench, of, reading(place="cylinder 1, exhaust left"))

    before, after = Measured.objects.order_by("pk")
    assert (before.verdict, before.limit_source) == ("watch", "default, not from your manual")
    assert (after.verdict, after.limit_source) == ("past", "Workshop manual 600, page 4-12")
    at_bench.post(reverse("limit", args=[type_code, "stem_ex"]), form | {"limit-limit": "0.09"})
    assert ManualLimit.objects.count() == 2
    assert ManualLimit.objects.standing().get().limit == Decimal("0.09")
    assert "Workshop manual 600, page 4-12" in text_of(at_bench.get(reverse("limits") + f"?type={type_code}"))
    at_bench.post(reverse("limit-default", args=[type_code, "stem_ex"]))
    assert not ManualLimit.objects.standing().exists()


def test_a_figure_of_the_manual_in_mm_holds_for_a_limit_that_is_a_share_of_the_bore(
    at_bench: Client, of: Job
) -> None:
    address = reverse("limit", args=[of.engine.type_code, "skirt_loss"])
    at_bench.post(address, {"limit-limit": "0.05", "limit-manual": "Workshop manual 600"})

    take(at_bench, of, reading(code="skirt_loss", place="cylinder 1", entered="50", unit="µm"))

    row = Measured.objects.get()
    assert (row.limit, row.verdict) == (Decimal("0.05"), "within")


def test_figures_out_of_order_are_refused_at_their_field(at_bench: Client, of: Job) -> None:
    form = {"limit-limit": "0.02", "limit-standard_high": "0.05", "limit-manual": "M"}
    page = at_bench.post(reverse("limit", args=[of.engine.type_code, "stem_ex"]), form)

    assert "0.02 is below the standard 0.05." in text_of(page)


def test_an_instrument_is_kept_with_its_check_and_named_by_a_reading(at_bench: Client, of: Job) -> None:
    told = {
        "instrument-name": "Bore gauge 2",
        "instrument-unit": "thou",
        "instrument-checked_on": "2026-01-12",
    }
    at_bench.post(reverse("instruments"), told)
    one = Instrument.objects.get()

    take(at_bench, of, reading(instrument=one.pk))

    assert Measured.objects.get().instrument == one
    assert "Bore gauge 2, checked 12 Jan 2026" in text_of(at_bench.get(sheet(of)))


def test_what_stands_on_a_catalogue_that_is_gone_says_so(at_bench: Client, of: Job) -> None:
    unload()
    at_bench.raise_request_exception = False

    def answered(page: str) -> Any:
        return at_bench.get(reverse(page, args=[of.pk]))

    sheet_of_job = answered("teardown")
    assert sheet_of_job.status_code == 409
    assert "The catalogue is empty, and this page is worked out from it." in text_of(sheet_of_job)
    assert "manage.py load_catalogue" in text_of(sheet_of_job)
    others = ("job", "findings", "record", "job-release", "job-advice", "clock", "pick-list")
    assert not [page for page in others if answered(page).status_code >= 500]
