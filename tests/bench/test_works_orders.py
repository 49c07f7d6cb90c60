"""Machine work: out under a tag with its sizes, back only as what it went out as."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from pypdf import PdfReader

from quotes.actions.bench.works_orders import CameBack, SentOut, send_out, take_back
from quotes.calc.bench.parts.target_sizes import CheckedSize, Target
from quotes.calc.bench.parts.works_sheet import WorksSheet
from quotes.documents.bench.works_order import works_order_pdf
from quotes.models import IssuedForGood, Job, WorksOrder
from quotes.queries.bench.parts.works_orders import totals_in_words
from tests.bench.cast import NOW, ON, job
from tests.cast import builder, shipped
from tests.shipped import load_shipped

# Plain rows, such as the other files of the bench keep on both databases.
pytestmark = pytest.mark.one_database

BORE = Target(name="Bore, cylinder 1", low=Decimal("67.000"), high=Decimal("67.012"))
GOOD = (CheckedSize(name=BORE.name, value=Decimal("67.005")),)
SENT = SentOut(
    machine_work="replate",
    vendor="",
    tag="H4-17",
    quantity=Decimal(4),
    sent_on=ON,
    expected_on=ON + timedelta(days=14),
    slow_on=ON + timedelta(days=28),
    targets=(BORE,),
    goes_with=("Four pistons, numbered",),
)
WEEKS = timedelta(days=14)
BACK = CameBack(on=ON + WEEKS, tag="H4-17", checked=GOOD, sound=True)


@pytest.fixture
def of(db: None) -> Job:
    load_shipped()
    return job()


def out(of: Job, **change: object) -> WorksOrder:
    return send_out(job=of, sent=replace(SENT, **change), key=uuid4(), by=builder(), now=NOW)  # type: ignore[arg-type]


def back(order: WorksOrder, **change: object) -> WorksOrder:
    came = replace(BACK, **change)  # type: ignore[arg-type]
    return take_back(order=order, back=came, by=builder(), now=NOW + WEEKS)


def test_a_works_order_has_its_number_its_cost_and_the_usual_shop(of: Job) -> None:
    order = out(of)

    assert (order.number, order.component) == ("M-2026-0001", "bore")
    assert order.expected_cost > 0
    assert order.vendor


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"tag": " "}, "tag"),
        ({"targets": (), "words": ""}, "words"),
        ({"expected_on": date(2026, 1, 1)}, "expected_on"),
        ({"machine_work": "polish_all"}, "machine_work"),
        ({"quantity": Decimal(0)}, "quantity"),
    ],
)
def test_an_order_that_could_go_wrong_is_refused_at_its_field(
    of: Job, change: dict[str, object], field: str
) -> None:
    with pytest.raises(ValidationError) as told:
        out(of, **change)

    assert field in told.value.message_dict
    assert not WorksOrder.objects.exists()


def test_it_comes_back_measured_and_is_not_changed_after_that(of: Job) -> None:
    order = back(out(of))

    assert (order.sound, order.taken_off, order.cost) == (True, "replate", order.expected_cost)
    order.vendor = "Another"
    with pytest.raises(IssuedForGood):
        order.save()


def test_another_engines_part_is_noticed_by_its_tag(of: Job) -> None:
    with pytest.raises(ValidationError, match="is not the tag it went out under"):
        back(out(of), tag="H4-18")


@pytest.mark.parametrize("checked", [(), (CheckedSize(name=BORE.name, value=Decimal("67.02")),)])
def test_a_part_outside_its_size_or_unmeasured_is_not_sound(
    of: Job, checked: tuple[CheckedSize, ...]
) -> None:
    order = out(of)

    with pytest.raises(ValidationError, match="not as it was asked for"):
        back(order, checked=checked)

    assert back(order, checked=checked, sound=False, note="Goes back to them").sound is False


def test_what_is_taken_off_adds_up_over_the_engines_life_whichever_job_it_was(of: Job) -> None:
    back(out(of))
    for depth in ("0.10", "0.05"):
        skim = out(of, machine_work="head_skim", targets=(), words="Skim flat")
        back(skim, checked=(), taken_off_mm=Decimal(depth))

    assert totals_in_words(of.engine_id) == (
        "Bore: replated once. One maker allows no second replating: ask the maker of this one.",
        "Cylinder head: skimmed 2 times, 0.15 mm in all.",
    )


def test_the_paper_goes_out_with_tag_sizes_and_what_goes_with_it(of: Job) -> None:
    content = works_order_pdf(WorksSheet.model_validate(out(of).sheet))

    pages = PdfReader(io.BytesIO(content)).pages
    text = " ".join(" ".join(page.extract_text() for page in pages).split())
    usual_shop = shipped("four600").machine_work["replate"].vendor
    for said in (
        "M-2026-0001",
        usual_shop,
        "H4-17",
        "67.000",
        "67.012",
        "4 cylinders",
        "Four pistons, numbered",
    ):
        assert said in text
