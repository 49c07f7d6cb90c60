"""The worksheet: lines with their reasons, taken in and out, and never left unsaid."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from quotes.calc.ask.request import Edits
from quotes.documents.words import figure
from quotes.models import Quote, Workshop
from quotes.queries.comparison import comparison_for
from quotes.queries.people import Role
from quotes.queries.sheets import request_of
from tests.quotes import cast
from tests.quotes.card_payload import Page, faults_on, signed_in, text_of

# What is edited here is kept as a draft, which test_drafts.py shows on both: one of each kind is enough.
pytestmark = [pytest.mark.usefixtures("catalogue"), pytest.mark.one_database]


def address(quote: Quote, **asked: str) -> str:
    return reverse("quote", args=[quote.pk], query=asked or None)


def edits(quote: Quote, tier: str = "refresh") -> Edits:
    return request_of(Quote.objects.get(pk=quote.pk)).edits.get(tier, Edits())


def change(quote: Quote, role: Role = "desk", /, **posted: Any) -> Page:
    """One edit on the refresh option, by whoever has the latest version before them."""
    version = Quote.objects.get(pk=quote.pk).version
    fields = {name.replace("__", "-"): value for name, value in posted.items()}
    told = {"option": "refresh", "version": str(version), **fields}
    return signed_in(role).post(address(quote), told)


def boxes(page: Page, name: str = "refresh") -> tuple[list[str], list[str]]:
    """Boxes that can be ticked, and those of them that are."""
    text = page.content.decode()
    shown = re.findall(r'name="shown" value="([^"]+)"', text)
    ticked = [code for code in shown if re.search(rf'id="in-{code}"[^>]* checked', text)]
    return shown, ticked


def toggled(quote: Quote, code: str) -> Page:
    """The worksheet with one box pressed."""
    shown, ticked = boxes(signed_in().get(address(quote)))
    assert code in shown, shown
    after = [each for each in ticked if each != code] + ([] if code in ticked else [code])
    return change(quote, shown=shown, **{"in": after})


@pytest.fixture
def worth_it(quote: Quote) -> str:
    """A component that refresh takes in for itself because it is worth it, and that can't lock the wheel."""
    option = comparison_for(request_of(quote)).option("refresh")
    free = (c for c, why in option.renewed.items() if why.state == "worth it" and not why.rider_safety)
    return next(code for code in free if option.renewed[code].code == "worth_it")


@pytest.fixture
def must(quote: Quote) -> str:
    """A component that must be renewed and can't lock the wheel."""
    option = comparison_for(request_of(quote)).option("refresh")
    return next(c for c, why in option.renewed.items() if why.state == "must" and not why.rider_safety)


@pytest.fixture
def unsafe(quote: Quote) -> str:
    """A component of refresh that can lock the wheel or oil the tyre."""
    option = comparison_for(request_of(quote)).option("refresh")
    return next(c for c, why in option.renewed.items() if why.rider_safety)


def test_the_sections_add_up_to_the_net_sum(quote: Quote) -> None:
    page = signed_in().get(address(quote)).content.decode()
    sums = re.findall(
        r'<tr class="group">\s*<th scope="rowgroup" colspan="6">[^<]+</th>'
        r'\s*<td class="n">\s*<a [^>]*>([\d.,]+)<',
        page,
    )
    net = re.search(r'Net</th>\s*<td class="n">\s*<a [^>]*>([\d.,]+)', page)
    assert net is not None
    assert sums
    assert sum(Decimal(each.replace(",", "")) for each in sums) == Decimal(net[1].replace(",", ""))


def test_each_option_has_its_own_sheet_and_leads_to_the_others(quote: Quote) -> None:
    page = text_of(signed_in().get(address(quote, option="mild")))
    assert "Option Mild build" in page
    assert "Also: Refresh , Full power" in page


def test_an_unknown_option_shows_the_first(quote: Quote) -> None:
    assert "Option Refresh" in text_of(signed_in().get(address(quote, option="wild")))


def test_the_work_stands_in_order_with_what_shared_strip_down_saves(quote: Quote) -> None:
    page = signed_in().get(address(quote)).content.decode()
    option = comparison_for(request_of(quote)).option("refresh")
    order = page.partition('<ol class="order">')[2].partition("</ol>")[0]
    assert order.count("<li>") == len(option.operations)
    assert "Shared strip-down is charged once" in page


def test_the_pictures_stand_with_their_numbers_and_attributes_only(quote: Quote) -> None:
    page = signed_in().get(address(quote)).content.decode()
    for name in ("picture", "lives", "causes"):
        assert f'aria-labelledby="{name}-narrow-title {name}-narrow-desc"' in page
    assert "Engines stopped in 100, by cause: the same in numbers" in page
    assert "Per cent of planned life used, before and after: the same in numbers" in page
    assert not re.search(r"<(style|script)>|\s(style|onclick)=", page)


def test_a_line_that_is_worth_it_can_be_left_and_taken_in_again(quote: Quote, worth_it: str) -> None:
    toggled(quote, worth_it)
    assert edits(quote).leave == (worth_it,)
    toggled(quote, worth_it)
    assert edits(quote).leave == ()
    assert edits(quote).include == (worth_it,)


def test_what_comes_along_with_another_part_can_not_be_left_alone(quote: Quote) -> None:
    option = comparison_for(request_of(quote)).option("refresh")
    free = (why for why in option.renewed.values() if why.state == "worth it" and not why.rider_safety)
    why = next(each for each in free if each.code == "companion")
    answer = toggled(quote, why.component)
    assert f"{why.name} can't be left alone. Goes with the " in text_of(answer)
    assert edits(quote) == Edits()


def test_an_offered_line_can_be_taken_in(quote: Quote) -> None:
    option = comparison_for(request_of(quote)).option("refresh")
    code = next(iter(option.offered))
    toggled(quote, code)
    assert code in comparison_for(request_of(Quote.objects.get())).option("refresh").renewed


def test_only_the_option_before_one_is_changed(quote: Quote, worth_it: str) -> None:
    toggled(quote, worth_it)
    assert edits(quote, "mild") == Edits()


def test_a_must_line_has_no_box_to_press(quote: Quote, must: str) -> None:
    shown, _ = boxes(signed_in().get(address(quote)))
    assert must not in shown


def test_a_must_line_sent_as_left_is_refused_and_nothing_is_kept(quote: Quote, must: str) -> None:
    answer = change(quote, shown=[must], **{"in": []})
    assert "must be done. Leaving it needs the customer's signed word" in text_of(answer)
    assert edits(quote) == Edits()


@pytest.mark.both_databases
def test_a_must_line_is_left_once_the_customer_has_signed(quote: Quote, must: str) -> None:
    change(quote, do="refuse", refuse=must, refusal__signed_by="Marel Otten", refusal__on="2026-11-25",
           refusal__reason="has a new one at home")  # fmt: skip
    assert edits(quote).leave == (must,)
    (refusal,) = request_of(Quote.objects.get()).refusals
    assert (refusal.component, refusal.signed_by) == (must, "Marel Otten")
    page = text_of(signed_in().get(address(quote)))
    assert "Left against our advice: signed by Marel Otten" in page
    assert "has a new one at home" in page


def test_before_anybody_signs_it_says_what_the_option_would_come_to_without_the_line(
    quote: Quote, must: str
) -> None:
    page = text_of(signed_in().get(address(quote), {"refuse": must}))
    change(quote, do="refuse", refuse=must, refusal__signed_by="Marel Otten", refusal__on="2026-11-25",
           refusal__reason="has a new one at home")  # fmt: skip
    left = comparison_for(request_of(Quote.objects.get())).option("refresh")
    assert f"Without it: with tax {figure(left.gross.typical)}, was " in page


def test_what_an_edit_did_to_the_sum_stands_beside_it(quote: Quote, worth_it: str) -> None:
    before = comparison_for(request_of(quote)).option("refresh")
    shown, ticked = boxes(signed_in().get(address(quote)))
    told = {"option": "refresh", "version": str(quote.version), "shown": shown}
    told |= {"in": [code for code in ticked if code != worth_it]}
    page = text_of(signed_in().post(address(quote), told, headers={"HX-Request": "true"}))
    after = comparison_for(request_of(Quote.objects.get())).option("refresh")
    assert f"With tax {figure(after.gross.typical)} was {figure(before.gross.typical)}" in page


@pytest.mark.parametrize("missing", ["signed_by", "on", "reason"])
def test_a_refusal_without_name_day_or_reason_is_a_fault_at_its_field(
    quote: Quote, must: str, missing: str
) -> None:
    told = {"signed_by": "Marel Otten", "on": "2026-11-25", "reason": "his own risk"} | {missing: ""}
    fields: dict[str, Any] = {f"refusal__{name}": value for name, value in told.items()}
    answer = change(quote, do="refuse", refuse=must, **fields)
    assert f"refusal-{missing}" in faults_on(answer)
    assert edits(quote) == Edits()


def test_taking_a_refused_line_in_again_drops_the_refusal(quote: Quote, must: str) -> None:
    change(quote, do="refuse", refuse=must, refusal__signed_by="Marel Otten", refusal__on="2026-11-25",
           refusal__reason="has a new one at home")  # fmt: skip
    toggled(quote, must)
    assert edits(quote).leave == ()
    assert request_of(Quote.objects.get()).refusals == ()


def test_what_can_lock_the_wheel_is_only_left_with_a_signature(quote: Quote, unsafe: str) -> None:
    change(quote, shown=[unsafe], **{"in": []})
    assert edits(quote) == Edits()
    change(quote, do="refuse", refuse=unsafe, refusal__signed_by="Marel Otten", refusal__on="2026-11-25",
           refusal__reason="told twice")  # fmt: skip
    assert edits(quote).leave == (unsafe,)


def test_what_can_lock_the_wheel_is_never_left_where_the_owner_says_so(quote: Quote, unsafe: str) -> None:
    Workshop.objects.update(refuses_unsafe=True)
    answer = change(quote, do="refuse", refuse=unsafe, refusal__signed_by="Marel Otten",
                    refusal__on="2026-11-25", refusal__reason="told twice")  # fmt: skip
    assert "we do not build it without" in text_of(answer)
    assert edits(quote) == Edits()


def test_a_price_changed_by_hand_needs_its_note(quote: Quote) -> None:
    answer = change(quote, do="change-line", line="labour:strip", line__unit_price="50", line__note="")
    assert "line-note" in faults_on(answer)
    assert edits(quote) == Edits()


@pytest.mark.both_databases
def test_a_price_changed_by_hand_is_in_the_sum_and_can_be_given_back(quote: Quote) -> None:
    change(quote, do="change-line", line="labour:strip", line__unit_price="0", line__note="goodwill")
    line = next(each for each in comparison_for(request_of(Quote.objects.get())).option("refresh").lines
                if each.key == "labour:strip")  # fmt: skip
    assert (line.net, line.edited) == (Decimal("0.00"), "goodwill")
    change(quote, do="give-back", line="labour:strip")
    assert edits(quote).lines == {}


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("quantity", "-1", "“-1” is too small: 0 or more"),
        ("quantity", "some", "“some” is not a number"),
        ("unit_price", "-3", "“-3” is too small: 0 or more"),
        ("note", "n" * 400, "is too long: at most 300 characters"),
    ],
)
def test_a_line_changed_to_nonsense_is_a_fault_at_its_field(
    quote: Quote, field: str, typed: str, said: str
) -> None:
    told: dict[str, Any] = {"line__quantity": "1", "line__note": "so", f"line__{field}": typed}
    answer = change(quote, do="change-line", line="labour:strip", **told)
    assert said in faults_on(answer)[f"line-{field}"]
    assert edits(quote) == Edits()


@pytest.mark.both_databases
def test_a_line_of_our_own_is_in_the_sum(quote: Quote) -> None:
    change(quote, do="own-line", own__description="Rain cover", own__kind="part", own__quantity="2",
           own__unit_price="12.50")  # fmt: skip
    page = signed_in().get(address(quote)).content.decode()
    assert re.search(r"Rain cover</th>\s*<td class=\"n\">2</td>.*?25\.00", page, re.S)


def test_a_line_of_our_own_that_is_only_priced_stays_out_of_the_sum(quote: Quote) -> None:
    before = comparison_for(request_of(quote)).option("refresh").net.typical
    change(quote, do="own-line", own__description="New crank", own__kind="part", own__quantity="1",
           own__unit_price="900", own__only_if_needed="on")  # fmt: skip
    assert "Priced, and not in the sum" in text_of(signed_in().get(address(quote)))
    assert comparison_for(request_of(Quote.objects.get())).option("refresh").net.typical == before


def test_a_line_of_our_own_can_be_taken_out(quote: Quote) -> None:
    for what in ("Rain cover", "Stand"):
        change(quote, do="own-line", own__description=what, own__kind="part", own__quantity="1",
               own__unit_price="5")  # fmt: skip
    change(quote, **{"drop-own": "0"})
    assert [line.description for line in edits(quote).own_lines] == ["Stand"]


def test_a_discount_needs_its_reason(quote: Quote) -> None:
    answer = change(quote, do="discount", off__discount_pct="5", off__discount_reason="")
    assert "off-discount_reason" in faults_on(answer)
    assert edits(quote) == Edits()


def test_a_discount_is_in_the_sum_and_stands_in_its_field(quote: Quote) -> None:
    change(quote, do="discount", off__discount_pct="5", off__discount_reason="third engine this winter")
    page = signed_in().get(address(quote)).content.decode()
    assert 'value="third engine this winter"' in page
    assert "Discount" in text_of(signed_in().get(address(quote)))


@pytest.mark.parametrize("typed", ["-1", "101", "a lot"])
def test_a_discount_that_can_not_be_is_a_fault(quote: Quote, typed: str) -> None:
    answer = change(quote, do="discount", off__discount_pct=typed, off__discount_reason="so")
    assert "off-discount_pct" in faults_on(answer)


def test_what_was_typed_into_another_form_stays_when_a_box_is_pressed(quote: Quote, worth_it: str) -> None:
    shown, ticked = boxes(signed_in().get(address(quote)))
    left = [code for code in ticked if code != worth_it]
    told = {"option": "refresh", "version": "1", "shown": shown, "in": left, "own-description": "Rain co"}
    answer = signed_in().post(address(quote), told, headers={"HX-Request": "true", "HX-Target": "worked"})
    assert 'value="Rain co"' in answer.content.decode()


def test_with_a_script_only_the_sheet_comes_back(quote: Quote) -> None:
    part = signed_in().get(address(quote), headers={"HX-Request": "true", "HX-Target": "worked"})
    assert b"<html" not in part.content


@pytest.mark.parametrize(("role", "seen"), [("owner", True), ("desk", False)])
def test_the_margin_is_for_the_owner_alone(quote: Quote, role: Role, seen: bool) -> None:
    page = text_of(signed_in(role).get(address(quote)))
    assert ("What it costs us" in page) is seen


def test_the_margin_is_net_less_cost(quote: Quote) -> None:
    lines = comparison_for(request_of(quote)).option("refresh").lines
    net = sum(line.net for line in lines if line.cost is not None)
    cost = sum(line.cost for line in lines if line.cost is not None)
    page = text_of(signed_in("owner").get(address(quote)))
    assert f"What it costs us {cost:,.2f}" in page
    assert f"of net {net - cost:,.2f}" in page


@pytest.mark.both_databases
def test_a_stale_sheet_keeps_nothing_and_says_whose_change_stands(quote: Quote, worth_it: str) -> None:
    change(quote, "owner", do="discount", off__discount_pct="5", off__discount_reason="third engine")
    told = {"option": "refresh", "version": "1", "do": "discount", "off-discount_pct": "10",
            "off-discount_reason": "asked for it"}  # fmt: skip
    answer = signed_in().post(address(quote), told)
    assert "Orla Venn has changed this since you opened it" in text_of(answer)
    assert edits(quote).discount_pct == Decimal(5)


@pytest.mark.both_databases
def test_an_accepted_quote_can_be_read_and_no_longer_changed(quote: Quote) -> None:
    cast.accepted(cast.issued(quote))
    page = text_of(signed_in().get(address(quote)))
    assert "Work it out with these lines" not in page
    change(quote, do="discount", off__discount_pct="5", off__discount_reason="late")
    assert edits(quote) == Edits()


@pytest.mark.both_databases
def test_one_option_costs_as_many_queries_as_three(quote: Quote) -> None:
    client = signed_in()
    client.get(address(quote))
    with CaptureQueriesContext(connection) as three:
        client.get(address(quote))
    alone = request_of(quote).model_copy(update={"tiers": ("refresh",)})
    Quote.objects.filter(pk=quote.pk).update(request=alone.model_dump(mode="json", by_alias=True))
    with CaptureQueriesContext(connection) as one:
        client.get(address(quote))
    assert len(one) == len(three)


def test_a_quote_that_no_longer_can_be_worked_out_says_why_and_leads_to_its_card(quote: Quote) -> None:
    stored = request_of(quote).model_dump(mode="json", by_alias=True)
    stored["planned"]["duty"] = "joyride"
    Quote.objects.filter(pk=quote.pk).update(request=stored)
    page = text_of(signed_in().get(address(quote)))
    assert "can't be worked out as it stands" in page
    assert "“joyride” can't stand here" in page
