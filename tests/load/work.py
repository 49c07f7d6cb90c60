"""What each of the workshop does at the screen: mostly looks, now and then a form that is filled in."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from tests.faults.acts import (
    Act,
    Person,
    clock,
    draft_changed,
    engine_taken_in,
    new_customer,
    new_engine,
    new_quote,
    payment,
    quote_issued,
    sale_issued,
)
from tests.faults.browser import Form
from tests.load.measured import MeasuredBrowser
from tests.quotes.card_payload import payload

FOUND = ("otten", "H4-", "river", "single", "a")


def look(address: str) -> Act:
    """Opens one page."""
    return lambda one: _open(one, address)


def one_of(listed: str, begins: str, *, ends: str = "/") -> Act:
    """Opens a list and then something on it, by what its address begins and ends with."""

    def act(one: Person) -> None:
        tree = one.browser.page(listed)
        links = {str(link) for link in tree.xpath("//main//a/@href")}
        wanted = [link for link in links if _is_one(link, begins, ends)]
        if wanted:
            _open(one, one.chance.choice(sorted(wanted)))

    return act


def _is_one(link: str, begins: str, ends: str) -> bool:
    key = link.partition("?")[0].removeprefix(begins).removesuffix(ends)
    return link.startswith(begins) and key.isdecimal()


def _open(one: Person, address: str) -> None:
    assert isinstance(one.browser, MeasuredBrowser)
    one.browser.file(address)


def searched(page: str) -> Act:
    return lambda one: _open(one, f"{page}?q={one.chance.choice(FOUND)}")


def paper(listed: str, begins: str, end: str) -> Act:
    """A paper of something on a list."""

    def act(one: Person) -> None:
        tree = one.browser.page(listed)
        keys = [str(link) for link in tree.xpath("//main//a/@href") if _is_one(str(link), begins, "/")]
        if keys:
            _open(one, one.chance.choice(sorted(keys)) + end)

    return act


def asked_on_the_telephone(one: Person) -> None:
    """The options beside the card, while it is filled in."""
    form = one.browser.form("/quotes/new/")
    typed = payload(name=one.mark(), number="", email="")
    assert isinstance(one.browser, MeasuredBrowser)
    fields = form.fields | typed
    one.browser.swap(Form("/quotes/new/options/", fields))


@dataclass(frozen=True, slots=True)
class Role:
    """How many sit there, under whose sign-in, and what they do, with how often in a hundred."""

    name: str
    sign_in: str
    share: int
    acts: tuple[tuple[int, Callable[[Person], None]], ...]


ROLES = (
    Role(
        "desk",
        "desk",
        12,
        (
            (14, look("/")),
            (10, look("/quotes/")),
            (6, searched("/quotes/")),
            (8, searched("/find/")),
            (16, one_of("/quotes/", "/quotes/")),
            (8, asked_on_the_telephone),
            (6, draft_changed),
            (4, new_quote),
            (2, quote_issued),
            (6, look("/customers/")),
            (8, one_of("/customers/", "/customers/")),
            (4, new_customer),
            (2, new_engine),
            (6, one_of("/enquiries/", "/enquiries/")),
        ),
    ),
    Role(
        "bench",
        "builder",
        9,
        (
            (12, look("/")),
            (16, look("/bench/")),
            (18, one_of("/bench/", "/bench/")),
            (8, one_of("/engines/", "/engines/")),
            (16, clock),
            (6, engine_taken_in),
            (12, look("/bench/due/")),
            (6, look("/bench/orders/")),
            (6, look("/bench/lifed-parts/")),
        ),
    ),
    Role(
        "books",
        "books",
        6,
        (
            (12, look("/books/")),
            (14, look("/invoices/")),
            (16, one_of("/invoices/", "/invoices/")),
            (8, paper("/invoices/", "/invoices/", "invoice.pdf")),
            (10, payment),
            (4, sale_issued),
            (8, look("/payments/")),
            (8, look("/books/journal/")),
            (8, look("/books/overdue/")),
            (6, look("/books/bank/")),
            (6, look("/books/trial-balance/")),
        ),
    ),
    Role(
        "owner",
        "owner",
        3,
        (
            (20, look("/")),
            (20, look("/books/margin/")),
            (10, look("/settings/")),
            (20, one_of("/quotes/", "/quotes/")),
            (15, look("/lives/")),
            (15, look("/catalogue/parts/")),
        ),
    ),
)
