"""The options stand there at once and follow every change: first a band to say, then the figures."""

from __future__ import annotations

import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from quotes.models import ClassRule, Quote, Workshop
from tests.quotes.card_payload import Page, faults_on, payload, signed_in, text_of

# Looking keeps nothing; what is kept from this card is asked of both in test_new_quote_keep.py.
pytestmark = [pytest.mark.usefixtures("catalogue"), pytest.mark.one_database]


def row(answer: Page, label: str) -> list[str]:
    """The cells of the row with this label, as text."""
    page = answer.content.decode()
    found = re.search(rf'<tr[^>]*>\s*<th scope="row">{re.escape(label)}</th>(.*?)</tr>', page, re.S)
    assert found, f"no row {label!r}"
    return [re.sub(r"<[^>]+>", "", cell) for cell in re.findall(r"<td>(.*?)</td>", found[1], re.S)]


def options(**change: str) -> Page:
    return signed_in().post("/quotes/new/options/", payload(**change))


def numbers(band: str) -> tuple[int, ...]:
    return tuple(int(sum_.replace(",", "")) for sum_ in band.split("\N{EN DASH}"))


def test_engine_type_and_duty_are_enough(workshop: Workshop) -> None:
    answer = signed_in().post("/quotes/new/options/", {"type": "four600", "planned-duty": "endurance"})
    assert len(row(answer, "Say")) == 4


def test_the_first_row_is_a_band_that_can_be_said_and_holds_the_worked_sum(workshop: Workshop) -> None:
    answer = options()
    assert answer.content.decode().index("Say</th>") < answer.content.decode().index("Before tax</th>")
    for band, gross in zip(row(answer, "Say"), row(answer, "With tax"), strict=True):
        low, high = numbers(band)
        assert low < float(gross.replace(",", "")) < high
        assert low % 100 == high % 100 == 0


def test_the_band_is_before_tax_where_the_workshop_talks_before_tax(workshop: Workshop) -> None:
    with_tax = numbers(row(options(), "Say")[3])
    assert "A band with tax, never a price." in text_of(signed_in().get("/quotes/new/"))
    Workshop.objects.update(prices_include_tax_in_talk=False)
    assert "A band, never a price." in text_of(signed_in().get("/quotes/new/"))
    assert numbers(row(options(), "Say")[3])[0] < with_tax[0]


def test_leave_it_stands_first_and_the_three_options_after_it(workshop: Workshop) -> None:
    heads = re.findall(r'<th scope="col">([^<]+)</th>', options().content.decode())
    assert heads == ["US dollars", "Leave it", "Refresh", "Mild build", "Full power"]


def test_a_longer_season_gives_a_lower_chance(workshop: Workshop) -> None:
    short, long = options(planned__amount="500"), options(planned__amount="6000")
    assert float(row(short, "Finishes, in 20")[0].split(",")[0]) > float(
        row(long, "Finishes, in 20")[0].split(",")[0]
    )


def test_an_aim_in_twenty_and_the_same_in_per_cent_give_the_same_options(workshop: Workshop) -> None:
    in_twenty = options(aim="18", aim_as="in_20")
    assert row(in_twenty, "Aim of 18 in 20, 90\N{NO-BREAK SPACE}%")[1] == "reached"
    assert row(in_twenty, "With tax") == row(options(aim="90", aim_as="per_cent"), "With tax")


def test_a_budget_bounds_what_refresh_costs(workshop: Workshop) -> None:
    free, bound = row(options(), "With tax")[1], row(options(budget="3000"), "With tax")[1]
    assert float(bound.replace(",", "")) < float(free.replace(",", ""))


def test_history_not_written_yet_is_worked_out_as_not_known(workshop: Workshop) -> None:
    nothing = {
        "history__0__amount": "",
        "history__0__duty": "",
        "history__0__start": "",
        "history__0__end": "",
    }
    assert row(options(**nothing), "With tax") == row(options(past="unknown", **nothing), "With tax")


def test_a_new_engine_is_not_one_of_unknown_history(workshop: Workshop) -> None:
    assert row(options(past="new"), "Finishes, in 20") != row(options(past="unknown"), "Finishes, in 20")


def test_what_is_still_to_be_asked_is_no_fault_while_somebody_talks(workshop: Workshop) -> None:
    answer = options(planned__duty="")
    assert "Still to ask: What is it for now?" in text_of(answer)
    assert 'data-place="' not in answer.content.decode()


def test_a_mistyped_address_stops_no_price_on_the_telephone(workshop: Workshop) -> None:
    answer = options(email="not an address")
    assert len(row(answer, "Say")) == 4
    assert 'data-place="id_email_error"' in answer.content.decode()


def test_a_budget_that_does_not_pay_for_the_least_is_said_while_somebody_talks(workshop: Workshop) -> None:
    assert "Mind this, refresh. The budget does not pay for the least" in text_of(options(budget="500"))


def test_a_fault_goes_to_its_field_and_is_spoken(workshop: Workshop) -> None:
    page = options(history__0__amount="-5").content.decode()
    assert '<li data-place="id_history-0-amount_error">“-5” is too small: 0 or more.</li>' in page
    spoken = page.partition('id="spoken"')[2]
    assert "“-5” is too small" in spoken


def test_what_a_screen_reader_says_is_short(workshop: Workshop) -> None:
    spoken = options().content.decode().partition('id="spoken"')[2].partition("</p>")[0]
    assert 'role="status"' in spoken
    assert "Refresh:" in spoken
    assert len(spoken) < 400


def test_the_picture_and_one_sentence_to_say_stand_beside_the_table(workshop: Workshop) -> None:
    page = options().content.decode()
    assert page.count("<svg") == 1
    assert "Say so." in page


def test_the_answer_keeps_to_the_content_policy(workshop: Workshop) -> None:
    page = options().content.decode()
    assert not re.search(r"<(style|script)|\s(style|on\w+)=", page)


def test_without_a_script_a_button_works_the_same_options_out(workshop: Workshop) -> None:
    whole = signed_in().post("/quotes/new/", payload(do="work"))
    assert row(whole, "With tax") == row(options(), "With tax")
    assert faults_on(whole) == {}


def test_a_class_says_what_it_allows(workshop: Workshop) -> None:
    ClassRule.objects.create(code="club", name="Club open", allows_compression=True, allows_cams=True)
    assert "Club open: cams and compression allowed" in signed_in().get("/quotes/new/").content.decode()


def test_what_the_class_does_not_allow_is_said_before_anything_is_kept(workshop: Workshop) -> None:
    ClassRule.objects.create(code="stock", name="Stock")
    answer = options(class_code="stock")
    assert row(answer, "Allowed in the class")[1:] != ["yes", "yes", "yes"]
    assert "cams" in row(answer, "Allowed in the class")[3]
    assert "Allowed in the class" not in options().content.decode()


def test_an_over_rev_asks_how_far_and_a_gear_fault_asks_which_gear(workshop: Workshop) -> None:
    client = signed_in()
    over = client.post("/quotes/new/seen/", payload(row="seen-0", seen__0__id="over_rev"))
    gear = client.post("/quotes/new/seen/", payload(row="seen-0", seen__0__id="dogs_rounded"))
    assert 'name="seen-0-pct_over"' in over.content.decode()
    assert 'value="gear_4"' in gear.content.decode()


def test_a_row_more_comes_with_the_cursor_in_it_and_the_last_unit(workshop: Workshop) -> None:
    page = (
        signed_in().post("/quotes/new/row/", payload(add="history", history__0__unit="km")).content.decode()
    )
    assert 'name="history-1-amount"' in page
    assert page.index("autofocus") < page.index("history-1-duty")
    assert '<option value="km" selected>' in page


def test_without_a_script_rows_come_and_go_as_well(workshop: Workshop) -> None:
    client = signed_in()
    assert 'name="history-1-amount"' in client.post("/quotes/new/", payload(add="history")).content.decode()
    gone = client.post("/quotes/new/", payload(drop="history-0")).content.decode()
    assert 'name="history-0-amount"' not in gone


def test_looking_keeps_nothing(workshop: Workshop) -> None:
    options()
    signed_in().post("/quotes/new/", payload(sheet="mild"))
    assert Quote.objects.count() == 0


def test_the_worked_sheet_of_an_option_can_be_looked_at_before_anything_is_kept(workshop: Workshop) -> None:
    page = text_of(signed_in().post("/quotes/new/", payload(sheet="mild")))
    assert "not kept yet" in page
    assert "port clean-up and matching" in page


@pytest.mark.both_databases
def test_one_answer_asks_the_database_a_fixed_number_of_questions(workshop: Workshop) -> None:
    client = signed_in()
    many: dict[str, str] = {}
    for n in range(20):
        many |= {f"history-{n}-amount": "10", f"history-{n}-unit": "mi", f"history-{n}-duty": "sprint",
                 f"history-{n}-tier": "refresh"}  # fmt: skip
    client.post("/quotes/new/options/", payload())
    with CaptureQueriesContext(connection) as one:
        client.post("/quotes/new/options/", payload())
    with CaptureQueriesContext(connection) as twenty:
        client.post("/quotes/new/options/", payload() | many)
    assert len(one) == len(twenty)
