"""Every page with a form says at its head what is wrong, with links to the fields, and again there."""

from __future__ import annotations

import re

import pytest
from django.test import Client
from django.urls import reverse

from catalogue.views.untouched import fields_of
from tests.browser.gallery.templates import stems, templates
from tests.cast import owner
from tests.quotes.cast import workshop

FIELD, HEAD = 'include "field.html"', "faults_of_page"
WORKSHEET = "quotes/worksheet.html"
"""A press opens one field on it at a time, which then holds the focus and its own fault."""


def parts(name: str, texts: dict[str, str]) -> set[str]:
    """A template with all that it stands on and takes in."""
    found, waiting = set[str](), [name]
    while waiting:
        one = waiting.pop()
        if one in found or one not in texts:
            continue
        found.add(one)
        waiting += [*stems(one, texts), *re.findall(r'{% include "([^"]+)"', texts[one])]
    return found


def test_every_page_that_holds_a_field_has_the_list_of_what_is_wrong() -> None:
    texts = dict(templates())
    pages = {name: parts(name, texts) for name in texts if stems(name, texts)}
    with_field = {name: of for name, of in pages.items() if any(FIELD in texts[each] for each in of)}

    assert len(with_field) > 60
    without = [name for name, of in with_field.items() if not any(HEAD in texts[each] for each in of)]
    assert without == [WORKSHEET]


def test_a_field_and_its_fault_are_drawn_by_one_template() -> None:
    drawn = re.compile(
        r"{{ field }}|{% for (?:fault|error) in [\w.]*field_errors|{% for error in [\w.]*errors"
    )
    two_in_one = "quotes/new_quote/amount.html"
    of_a_row = "quotes/books/draft_row.html"

    said = re.compile(r"{% blocktranslate.*?{% endblocktranslate %}", re.S)
    names = {name for name, text in templates() if drawn.search(said.sub("", text))}

    assert names == {"field.html", two_in_one, of_a_row}


@pytest.mark.django_db
@pytest.mark.parametrize("page", ["customer-new", "settings", "bill-new", "invoice-new", "booking-terms"])
def test_each_fault_at_the_head_leads_to_something_on_the_page(client: Client, page: str) -> None:
    workshop()
    client.force_login(owner())

    told = client.post(reverse(page), {"version": "1", "validity_days": "no"}).content.decode()

    head = told.partition('id="at-fault"')[2].partition("</div>")[0]
    links = re.findall(r'<a href="#([^"]+)">', head)
    assert links
    for place in links:
        assert f'id="{place}"' in told
        assert re.search(rf'id="{place.removesuffix("_error")}_error">[^<]', told)
    described = re.findall(r'aria-invalid="true"[^>]*aria-describedby="([^" ]+)', told)
    assert described
    assert all(f'id="{place}"' in told for place in described)


@pytest.mark.django_db
def test_a_fault_in_a_row_of_a_list_is_among_them(client: Client) -> None:
    workshop()
    client.force_login(owner())
    typed = fields_of(client.get(reverse("settings")).content)

    told = client.post(reverse("settings"), typed | {"band-0-cost_from": "x"}).content.decode()

    assert '<a href="#id_band-0-cost_from">' in told


@pytest.mark.django_db
def test_what_belongs_to_no_field_stands_there_without_a_link(client: Client) -> None:
    wrong = {"username": "nobody", "password": "no-such-password"}

    told = client.post(reverse("sign-in"), wrong).content.decode()

    head = told.partition('id="at-fault"')[2].partition("</div>")[0]
    assert "do not belong together" in head
    assert "<a " not in head
    assert 'id="at-fault"' not in client.get(reverse("sign-in")).content.decode()
