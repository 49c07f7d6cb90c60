"""Where a number of the worksheet comes from: opened in place, as a page, and all of them as a text."""

from __future__ import annotations

import re
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command
from django.urls import reverse

from quotes.calc.sheet.sentences import honesty
from quotes.calc.sheet.words import first_large
from quotes.models import Quote, Revision, Workshop
from quotes.queries.comparison import comparison_for
from quotes.queries.sheets import request_of
from tests.quotes.card_payload import Page, signed_in, text_of

pytestmark = pytest.mark.usefixtures("catalogue")


def number(quote: Quote, of: str, *, role: str = "owner", **more: str) -> Page:
    address = reverse("quote-origin", args=[quote.pk], query={"option": "refresh", "of": of, **more})
    return signed_in(role).get(address)  # type: ignore[arg-type]


def status(page: Page) -> int:
    return int(getattr(page, "status_code", 0))


def all_numbers(quote: Quote, role: str = "owner") -> str:
    address = reverse("quote-numbers", args=[quote.pk], query={"option": "refresh"})
    return signed_in(role).get(address).content.decode()  # type: ignore[arg-type]


def test_every_link_of_the_worksheet_opens(quote: Quote) -> None:
    page = signed_in("owner").get(reverse("quote", args=[quote.pk])).content.decode()
    links = sorted(set(re.findall(r'<a class="from" href="([^"]+)"', page)))
    named = (re.search(r"option=(\w+)&amp;of=(\w+)", link) for link in links)
    kinds = {
        each.groups(): link.replace("&amp;", "&") for each, link in zip(named, links, strict=True) if each
    }
    for kind in (
        "gross",
        "line",
        "price",
        "tax",
        "section",
        "operation",
        "adding",
        "component",
        "ready",
        "margin",
        "step",
    ):
        assert ("refresh", kind) in kinds, kind
    for kind in ("chance", "wheel_lock", "gross", "falls_due", "life_used", "stops", "others"):
        assert ("leave_it", kind) in kinds, kind
    for link in kinds.values():
        assert signed_in("owner").get(link).status_code == 200, link


def test_the_chances_with_loads_reckoned_otherwise_open_on_the_sheet(quote: Quote) -> None:
    page = signed_in("owner").get(reverse("quote", args=[quote.pk], query={"option": "full"}))
    links = set(re.findall(r'href="([^"]+of=reckoned[^"]*)"', page.content.decode()))
    assert len(links) == 6
    said = text_of(signed_in("owner").get(max(links, key=len).replace("&amp;", "&")))
    assert "As reckoned" in said


def test_a_number_opens_into_the_sheet_with_a_script_and_as_a_page_without(quote: Quote) -> None:
    address = reverse("quote-origin", args=[quote.pk], query={"option": "refresh", "of": "chance"})
    part = signed_in("owner").get(address, headers={"HX-Request": "true", "HX-Target": "origin"})
    assert 'method="dialog"' in part.content.decode()
    assert "<html" not in part.content.decode()
    assert "Back to the worked sheet" in text_of(signed_in("owner").get(address))


def test_what_the_shop_pays_is_for_the_owner_alone(quote: Quote) -> None:
    line = next(
        each.key for each in comparison_for(request_of(quote)).option("refresh").lines if each.kind == "part"
    )
    assert "Cost to us" in text_of(number(quote, f"line:{line}"))
    for text in (text_of(number(quote, f"line:{line}", role="desk")), all_numbers(quote, "builder")):
        assert "List price" in text
        assert "Cost to us" not in text
        assert "arkup" not in text
        assert "Margin" not in text
    assert status(number(quote, "margin")) == 200
    assert status(number(quote, "margin", role="desk")) == 404


def test_leaving_it_has_a_text_of_its_own(quote: Quote) -> None:
    address = reverse("quote-numbers", args=[quote.pk], query={"option": "leave_it"})
    text = signed_in("desk").get(address).content.decode()
    assert "Leave it" in text.splitlines()[0]
    for name in ("Chance of finishing the planned service", "Falls due", "With tax", "Good for"):
        assert f"## {name}: " in text


def test_a_figure_of_leaving_it_leads_back_to_the_option_beside_which_it_stood(quote: Quote) -> None:
    page = number(quote, "chance", option="leave_it", beside="mild").content.decode()

    assert f'href="{reverse("quote", args=[quote.pk])}?option=mild"' in page
    assert "beside=mild" in page


def test_a_number_that_the_option_does_not_have_is_not_found(quote: Quote) -> None:
    for of in ("", "wheel", "line:part:wheel", "component:"):
        assert status(number(quote, of)) == 404
    assert status(number(quote, "chance", via="wheel")) == 404


def test_the_text_holds_every_line_and_what_it_all_rests_on(quote: Quote) -> None:
    comparison = comparison_for(request_of(quote))
    text = all_numbers(quote)
    for line in comparison.option("refresh").lines:
        name = first_large(line.description)
        assert f"- {name}: {line.net:,.2f}" in text
    for sentence in honesty(comparison):
        assert sentence in text
    assert "holds" not in text.split("##")[0]


def test_what_was_issued_with_another_figure_holds_and_is_said(revision: Revision) -> None:
    issued = revision.sheet["comparison"]["options"][0]["gross"]["typical"]
    Workshop.objects.update(cap_at_list=False)
    said = text_of(number(revision.quote, "gross"))
    assert f"Revision 1 was issued with {float(issued):,.2f}. That holds." in said
    head = all_numbers(revision.quote).split("##")[0]
    assert "what was issued holds" in head
    assert f"- With tax: issued {float(issued):,.2f}, now " in head


def test_the_books_do_not_look_into_numbers(quote: Quote) -> None:
    assert status(number(quote, "chance", role="books")) == 403


def test_the_command_explains_every_option_it_works_out(quote: Quote, tmp_path: Path) -> None:
    path, told = tmp_path / "request.json", StringIO()
    asked = request_of(quote).model_copy(update={"tiers": ("refresh",)})
    path.write_text(asked.model_dump_json(by_alias=True))
    call_command("compare", str(path), explain=True, stdout=told)
    comparison = comparison_for(asked)
    assert "# Leave it: " in told.getvalue()
    assert f"## With tax: {comparison.options[0].gross.typical:,.2f}" in told.getvalue()
    assert all(sentence in told.getvalue() for sentence in honesty(comparison))
