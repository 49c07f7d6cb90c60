"""What can't be right is said at its field, what was typed stays, and nothing is kept half."""

from __future__ import annotations

import pytest

from catalogue.actions.entries import count_up
from catalogue.models import Part
from quotes.models import Customer, Engine, Quote, Workshop
from tests.quotes.card_payload import faults_on, payload, signed_in, text_of, value_of

pytestmark = pytest.mark.usefixtures("catalogue")

LONG_NAME = "Marel " * 1667

BAD = [
    ({"history__0__amount": "-5"}, "history-0-amount", "“-5” is too small: 0 or more"),
    ({"history__0__amount": "much"}, "history-0-amount", "“much” is not a number"),
    ({"history__0__amount": "4,5"}, "history-0-amount", "“4,5” is not a number"),
    ({"history__0__amount": "2000000"}, "history-0-amount", "at most 1,000,000"),
    ({"history__0__duty": "joyride"}, "history-0-duty", "“joyride” can't stand here: one of drag, endurance"),
    ({"history__0__tier": "wild"}, "history-0-tier", "“wild” can't stand here: one of full, mild, refresh"),
    ({"history__0__unit": "furlong"}, "history-0-unit", "“furlong” is not one of"),
    ({"history__0__unit": "runs"}, "history-0-unit", "“runs” can't stand here"),
    ({"history__0__start": "yesterday"}, "history-0-start", "“yesterday” is not a date"),
    ({"history__0__end": "2024-01-01"}, "history-0-end", "a day not before 2025-03-01"),
    ({"history__0__end": "2999-01-01"}, "history-0-end", "a day not after"),
    ({"type": "five900"}, "type", "“five900” can't stand here: one of single450"),
    ({"type": ""}, "type", "Nothing is given"),
    ({"planned__duty": ""}, "planned-duty", "Nothing is given"),
    ({"planned__duty": "joyride"}, "planned-duty", "“joyride” can't stand here"),
    ({"planned__amount": "0"}, "planned-amount", "“0” is too small: more than 0"),
    ({"planned__amount": "900000"}, "planned-amount", "at most 20 seasons"),
    ({"planned__amount": "70", "planned__unit": "runs"}, "planned-unit", "“runs” can't stand here"),
    ({"planned__events": "0"}, "planned-events", "more than 0"),
    ({"planned__events": "2.5"}, "planned-events", "“2.5” is not a number"),
    ({"planned__first_meeting": "soon"}, "planned-first_meeting", "“soon” is not a date"),
    ({"aim": "20"}, "aim", "“20” can't be aimed at"),
    ({"aim": "0"}, "aim", "“0” can't be aimed at"),
    ({"aim": "101", "aim_as": "per_cent"}, "aim", "“101” can't be aimed at"),
    ({"aim": "surely"}, "aim", "“surely” is not a number"),
    ({"aim": "18", "budget": "4000"}, "budget", "An aim of “18” is given as well"),
    ({"budget": "-1"}, "budget", "“-1” is too small: more than 0"),
    ({"loss": "-1"}, "loss", "“-1” is too small: 0 or more"),
    ({"class_code": "formula"}, "class_code", "“formula” can't stand here"),
    ({"seen__0__id": "gremlins"}, "seen-0-id", "“gremlins” can't stand here"),
    ({"seen__0__id": "dogs_rounded"}, "seen-0-component", "say which"),
    ({"seen__0__id": "over_rev", "seen__0__pct_over": "700"}, "seen-0-pct_over", "at most 100"),
    ({"renewed__0__component": "piston", "renewed__0__at": "9000", "renewed__0__unit": "mi"}, "renewed-0-at",
     "at most what the engine has run: 4,100"),
    ({"renewed__0__component": "piston", "renewed__0__unit": "mi"}, "renewed-0-at", "Nothing is given"),
    ({"readings__0__component": "piston", "readings__0__value": "x"}, "readings-0-value", "is not a number"),
    ({"past": "run", "history__0__amount": "", "history__0__duty": "", "history__0__start": "",
      "history__0__end": ""}, "past", "Nothing is given"),
    ({"name": ""}, "name", "Nothing is given"),
    ({"name": "Ma\x00rel"}, "name", "can't be kept"),
    ({"name": LONG_NAME}, "name", "at most 200 can be kept"),
    ({"telephone": "0" * 60}, "telephone", "at most 40 can be kept"),
    ({"email": "not an address"}, "email", "“not an address” is not an address"),
    ({"number": "n" * 80}, "number", "at most 60"),
    ({"history__0__duty": "spr\x00int"}, "history-0-duty", "can't be kept"),
]  # fmt: skip


@pytest.mark.both_databases
@pytest.mark.parametrize(
    ("change", "field", "said"), BAD, ids=[f"{f}-{n}" for n, (_, f, _) in enumerate(BAD)]
)
def test_a_fault_is_said_at_its_field_and_nothing_is_kept(
    change: dict[str, str], field: str, said: str, workshop: Workshop
) -> None:
    answer = signed_in().post("/quotes/new/", payload(do="keep", **change))
    assert said in faults_on(answer).get(field, ""), faults_on(answer)
    assert (Customer.objects.count(), Engine.objects.count(), Quote.objects.count()) == (0, 0, 0)


def test_a_reading_says_what_it_comes_to_while_it_is_typed(workshop: Workshop) -> None:
    typed = {
        "component": "piston",
        "quantity": "skirt clearance",
        "place": "cylinder 2",
        "value": "1.6",
        "unit": "mm",
        "standard": "0.03",
        "limit": "0.1",
        "bad_when": "above",
    }
    asked = payload(**{f"readings__0__{name}": value for name, value in typed.items()})
    page = text_of(signed_in().post("/quotes/new/options/", asked))
    assert "Skirt clearance, cylinder 2, 1.6 mm: past its limit; far off: is the unit right?" in page


def test_what_was_typed_stays_beside_the_fault(workshop: Workshop) -> None:
    answer = signed_in().post("/quotes/new/", payload(do="keep", history__0__amount="-5", name="Ines Karrow"))
    assert value_of(answer, "history-0-amount") == "-5"
    assert value_of(answer, "name") == "Ines Karrow"


def test_a_field_at_fault_is_marked_for_a_screen_reader(workshop: Workshop) -> None:
    page = signed_in().post("/quotes/new/", payload(do="keep", history__0__amount="-5")).content.decode()
    marked = page.partition('name="history-0-amount"')[2].partition(">")[0]
    assert 'aria-invalid="true"' in marked
    assert 'aria-describedby="id_history-0-amount_error"' in marked


def test_history_that_runs_backwards_is_a_fault_at_the_later_stretch(workshop: Workshop) -> None:
    later = {
        "history-1-amount": "300",
        "history-1-unit": "mi",
        "history-1-duty": "sprint",
        "history-1-tier": "refresh",
        "history-1-start": "2026-01-01",
    }
    answer = signed_in().post("/quotes/new/", payload(do="keep") | later)
    assert "history runs forward: not before 2026-10-10" in faults_on(answer)["history-1-start"]


def test_a_component_renewed_twice_is_a_fault_at_the_second_row(workshop: Workshop) -> None:
    twice = {f"renewed-{n}-{name}": value for n in (0, 1)
             for name, value in (("component", "piston"), ("at", "2000"), ("unit", "mi"))}  # fmt: skip
    answer = signed_in().post("/quotes/new/", payload(do="keep") | twice)
    assert (
        faults_on(answer)["renewed-1-component"] == "piston stands here twice: give its latest renewal only."
    )


def test_a_part_that_must_be_renewed_and_has_no_price_is_named(workshop: Workshop) -> None:
    Part.objects.filter(component_id="head_gasket").delete()
    count_up()
    answer = signed_in().post("/quotes/new/options/", payload())
    said = text_of(answer)
    assert "head gasket must be renewed and has no price" in said
    assert "enter one in the catalogue" in said
