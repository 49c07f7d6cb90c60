"""The pages of the assembly record: writing on a tablet, what is missing, the owner's word, the close."""

from __future__ import annotations

from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from quotes.models import AssemblyEntry, AssemblyRecord, Concession, Instrument, Job, Photo
from quotes.queries.bench.assembly.record import job_record
from tests.bench.cast import built_job, recorded, written_down
from tests.bench.parts_cast import real_build
from tests.bench.test_pages_receipt import picture
from tests.books.page_forms import text_of
from tests.cast import books, builder, desk, owner
from tests.shipped import load_shipped


def group(of: Job, code: str) -> str:
    return reverse("record-group", args=[of.pk, code])


def keep(client: Client, of: Job, code: str, component: str, **fields: str) -> str:
    """The text of the page after a press of one component's button."""
    named = {name.replace("__", ":"): value for name, value in fields.items()}
    answer = client.post(group(of, code), {"component": component, **named}, follow=True)
    assert answer.status_code == 200
    return text_of(answer)


def test_what_was_written_stands_in_its_field_with_name_and_instrument(at_bench: Client, of: Job) -> None:
    wrench = Instrument.objects.create(name="Torque wrench 2")
    fields = {"e__case_torque__0": "10 Nm + 90°", "instrument": str(wrench.pk)}
    words = keep(at_bench, of, "bottom_end", "case_bolt", **fields)
    assert "1 entry kept." in words
    assert "Bram Tolley" in words
    assert "Torque wrench 2" in words
    assert AssemblyEntry.objects.get().instrument == wrench


def lacks(of: Job, code: str) -> bool:
    return any(one.requirement.code == code for one in job_record(of).lacks())


def test_what_is_refused_stands_at_its_field_and_the_rest_is_kept(at_bench: Client, of: Job) -> None:
    words = keep(
        at_bench,
        of,
        "bottom_end",
        "rod_bearing",
        e__new_rod_bearing__0="new",
        p__new_rod_bearing="",
        b__new_rod_bearing="",
    )
    assert "a part number or a batch is needed" in words
    assert not AssemblyEntry.objects.exists()


def test_a_page_that_is_older_than_what_stands_changes_nothing_by_itself(at_bench: Client, of: Job) -> None:
    keep(at_bench, of, "bottom_end", "case_bolt", e__case_torque__0="10 Nm")
    keep(
        at_bench, of, "bottom_end", "case_bolt", e__case_torque__0="12 Nm", was__e__case_torque__0="10 Nm|||"
    )
    words = keep(
        at_bench, of, "bottom_end", "case_bolt", e__case_torque__0="10 Nm", was__e__case_torque__0="10 Nm|||"
    )
    assert "Nothing new was written." in words
    assert "before: 10 Nm" in words
    assert AssemblyEntry.objects.standing().get().entered == "12 Nm"


def test_another_unit_picked_for_the_next_figure_does_not_turn_those_that_stand(
    client: Client, db: None
) -> None:
    load_shipped()
    of = built_job(real_build(tier="full"))
    client.force_login(builder())
    shafts = {"unit__shaft_float": "mm", "e__shaft_float__0": "0.10"}
    keep(client, of, "gearbox", "gearbox_bearing", **shafts)
    after = {"unit__shaft_float": "thou", "e__shaft_float__0": "0.10", "was__e__shaft_float__0": "0.10|mm||"}
    assert "1 entry kept." in keep(client, of, "gearbox", "gearbox_bearing", e__shaft_float__1="4", **after)
    rows = AssemblyEntry.objects.order_by("pk").values_list("place", "entered", "entered_unit")
    assert list(rows) == [("input shaft", "0.10", "mm"), ("output shaft", "4", "thou")]


def test_emptying_a_field_takes_its_entry_back(at_bench: Client, of: Job) -> None:
    keep(at_bench, of, "gearbox", "selector", e__gears_select__0="yes")
    assert not lacks(of, "gears_select")
    keep(at_bench, of, "gearbox", "selector", was__e__gears_select__0="yes|||")
    assert lacks(of, "gears_select")


def test_the_record_lists_what_is_missing_and_refuses_to_close(at_bench: Client, of: Job) -> None:
    words = text_of(at_bench.get(reverse("record", args=[of.pk])))
    assert "Turns free, cases joined" in words
    words = text_of(at_bench.post(reverse("record-close", args=[of.pk])))
    assert "can't be closed" in words
    assert not AssemblyRecord.objects.exists()


def test_the_owner_lets_pass_with_a_reason(client: Client, of: Job) -> None:
    client.force_login(owner())
    address = reverse("record-let-pass", args=[of.pk, "rotor_bolt"])
    assert "write why it may stay so" in text_of(client.post(address, {"at": "0", "words": ""}))
    assert "No place is ticked" in text_of(client.post(address, {"words": "Wrench away"}))
    client.post(address, {"at": "0", "words": "Wrench away for its check"})
    assert Concession.objects.get().words == "Wrench away for its check"
    assert "Wrench away for its check" in text_of(client.get(reverse("record", args=[of.pk])))


def test_nobody_else_lets_pass(at_bench: Client, of: Job) -> None:
    assert at_bench.get(reverse("record-let-pass", args=[of.pk, "rotor_bolt"])).status_code == 403


def test_the_desk_reads_and_does_not_write(client: Client, of: Job) -> None:
    client.force_login(desk())
    assert "Only the builder and the owner write here." in text_of(client.get(group(of, "gearbox")))
    answer = client.post(group(of, "gearbox"), {"component": "selector", "e:gears_select:0": "yes"})
    assert answer.status_code == 403
    assert client.post(reverse("record-close", args=[of.pk])).status_code == 403


def test_the_books_have_no_business_here(client: Client, of: Job) -> None:
    client.force_login(books())
    assert client.get(reverse("record", args=[of.pk])).status_code == 403


def test_a_complete_record_is_closed_and_served_as_it_was_stored(at_bench: Client, of: Job) -> None:
    written_down(of)
    words = text_of(at_bench.post(reverse("record-close", args=[of.pk]), follow=True))
    assert "takes nothing more" in words
    paper = reverse("record-paper", args=[of.pk])
    first = at_bench.get(paper).content
    assert first.startswith(b"%PDF")
    assert at_bench.get(paper).content == first


def test_after_the_close_a_page_left_open_keeps_nothing(at_bench: Client, of: Job) -> None:
    recorded(of)
    count = AssemblyEntry.objects.count()
    words = keep(at_bench, of, "gearbox", "selector", e__gears_select__0="yes")
    assert "The record is closed: nothing more was kept." in words
    assert AssemblyEntry.objects.count() == count


def test_the_jobs_page_leads_to_the_record(at_bench: Client, of: Job) -> None:
    answer = at_bench.get(reverse("job", args=[of.pk]))
    assert reverse("record", args=[of.pk]) in answer.content.decode()


def test_a_photo_of_the_assembly_stands_in_the_record(at_bench: Client, of: Job) -> None:
    address = reverse("record-photo", args=[of.pk])
    told = {"words": "Timing marks, cylinder 1 at the top", "photo": SimpleUploadedFile("a.jpg", picture())}
    assert "Timing marks, cylinder 1 at the top" in text_of(at_bench.post(address, told, follow=True))
    assert "say what it shows" in text_of(
        at_bench.post(address, {"photo": SimpleUploadedFile("b.jpg", picture())}, follow=True)
    )
    assert Photo.objects.get().about == "assembly"


def test_a_full_page_costs_no_more_queries_than_an_empty_one(at_bench: Client, of: Job) -> None:
    def asked() -> int:
        with CaptureQueriesContext(connection) as told:
            assert at_bench.get(group(of, "gaskets")).status_code == 200
        return len(told)

    asked()
    empty = asked()
    written_down(of)
    assert asked() == empty
