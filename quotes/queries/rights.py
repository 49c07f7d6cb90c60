"""Who may open which page, and see or do what on it: the one place where rights are given.

Pages go by the name of their address. One that stands in no row is refused to everybody, and the system check
names it. A right to a page is a right to every object of the workshop's on it, but for the two rows that say
otherwise: a link shows what hangs on its own quote, and a person ends his own sign-ins only.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser

from quotes.queries.people import ROLES, Role, roles_of

ANYBODY: Literal["anybody"] = "anybody"
LINK: Literal["link"] = "link"
"""Whoever holds a customer's link. No sign-in adds to it or takes from it."""
SIGNED_IN: Literal["signed in"] = "signed in"
Who = frozenset[Role] | Literal["anybody", "link", "signed in"]

ALL: frozenset[Role] = frozenset(ROLES)
OWNER: frozenset[Role] = frozenset({"owner"})
DESK: frozenset[Role] = frozenset({"desk", "owner"})
BUILDER: frozenset[Role] = frozenset({"builder", "owner"})
BOOKS: frozenset[Role] = frozenset({"books", "owner"})
WORKSHOP: frozenset[Role] = frozenset({"desk", "builder", "owner"})
MONEY: frozenset[Role] = frozenset({"desk", "books", "owner"})


@dataclass(frozen=True, slots=True)
class Pages:
    """Pages of one area that the same people may open; `posts` where fewer may send something to them."""

    area: str
    who: Who
    names: str
    objects: str = "all"
    posts: frozenset[Role] | None = None


RIGHTS: tuple[Pages, ...] = (
    Pages(
        "Signing in", ANYBODY, "sign-in code codes-set-up forgotten forgotten-sent way-back", "a person's own"
    ),
    Pages("Signing in", ANYBODY, "invited", "the invitation's own"),
    Pages("Signing in", ANYBODY, "language", "the browser's own"),
    Pages("Signing in", ANYBODY, "teardown-worker", "a script that holds nothing of anybody"),
    Pages(
        "Signing in",
        SIGNED_IN,
        "sign-out own-sign-in new-password own-mail end-sign-in end-other-sign-ins",
        "a person's own",
    ),
    Pages(
        "A customer's link",
        LINK,
        "customer-quote customer-accept customer-ask customer-decline customer-receipt customer-pdf"
        " customer-workbook customer-receipt-pdf customer-invoice customer-photo customer-extra"
        " customer-extra-pdf customer-extra-photo customer-findings customer-findings-pdf"
        " customer-findings-photo customer-engine-pdf customer-leave-pdf customer-release-pdf"
        " customer-card-pdf customer-service",
        "the link's own quote, and what hangs on it",
    ),
    Pages("Today", SIGNED_IN, "home", "what waits for the roles that one has"),
    Pages("Today", BUILDER, "build-done"),
    Pages("Today", OWNER, "first-price-list sample-load sample-remove"),
    Pages("Find anything", SIGNED_IN, "find", "what one may open the pages of"),
    Pages("Help", SIGNED_IN, "help keys", "the same for everybody"),
    Pages(
        "Settings",
        OWNER,
        "settings people people-invite invitation-send invitation-withdraw sign-in-close sign-in-open",
    ),
    Pages("Record of changes", OWNER, "changes record-changes"),
    Pages("Work in the background", OWNER, "background background-again"),
    Pages("Work in the background", SIGNED_IN, "background-state", "work whose result one may see"),
    Pages("Quotes", ALL, "quote-list quote-pdf quote-workbook"),
    Pages(
        "Quotes",
        WORKSHOP,
        "new-quote new-quote-options quote-card quote-card-options new-quote-known new-quote-pick"
        " new-quote-by-type new-quote-row new-quote-seen quote quote-origin quote-numbers",
    ),
    Pages("Quotes", DESK, "quote-issue quote-link quote-link-withdraw"),
    Pages("Customers and engines", ALL, "customer"),
    Pages("Customers and engines", WORKSHOP, "customer-list engine-new engine-list engine"),
    Pages("Customers and engines", MONEY, "customer-new"),
    Pages("Customers and engines", OWNER, "customer-erase"),
    Pages(
        "Enquiries",
        DESK,
        "enquiry-list enquiry enquiry-pdf enquiry-say-again enquiry-quote enquiry-drop enquiry-book"
        " booking-agree booking-cancel import-customers import-template import-check import-drop",
    ),
    Pages("Enquiries", WORKSHOP, "booking booking-pdf slots"),
    Pages("Enquiries", OWNER, "booking-terms"),
    Pages(
        "Bench",
        ALL,
        "bench job job-photo photo photo-small job-receipt findings findings-pdf job-test running-in-rules"
        " job-release-pdf job-card-pdf extra-work-list extra-work extra-work-pdf",
    ),
    Pages(
        "Bench",
        WORKSHOP,
        "job-new job-step job-tie job-photos job-leave job-leave-paper job-declined job-sent-back job-advice"
        " teardown teardown-take work-out-again findings-issue worked-again-offer limits"
        " limit limit-default instruments instrument extra-work-new extra-work-withdraw clock clock-start"
        " clock-stop clock-settle record record-paper job-test-new job-check job-release",
    ),
    Pages("Bench", WORKSHOP, "record-group", posts=BUILDER),
    Pages("Bench", BUILDER, "record-close record-photo"),
    Pages("Bench", OWNER, "teardown-prices record-let-pass running-in-rule"),
    Pages(
        "Parts and machine work",
        ALL,
        "works-orders-out works-order-list works-order works-order-pdf pick-list order-list order order-pdf"
        " order-csv cores core-moved",
    ),
    Pages(
        "Parts and machine work",
        WORKSHOP,
        "works-order-new order-new receive-parts substitute substitute-decide",
    ),
    Pages(
        "After the hand-over",
        WORKSHOP,
        "due-list engine-due failure-new failure outcome outcome-back logbook logbook-pdf lifed-parts"
        " lifed-part-new lifed-part lifed-parts-in",
    ),
    Pages(
        "Books",
        BOOKS,
        "books-home books-agree overdue overdue-interest reminder-list reminder-new reminder reminder-pdf"
        " statement statement-pdf accounts opening",
    ),
    Pages(
        "Books",
        BOOKS,
        "bank-list bank-new bank-file bank-read bank-enter bank-drop bank-take bank-aside bank-wait"
        " bill-import bill-import-take bill-import-template bill-list bill-new bill bill-pay bill-reverse",
    ),
    Pages(
        "Books",
        BOOKS,
        "journal journal-entry trial-balance export-list export-new export export-state export-again"
        " export-workbook export-csv months month-close",
    ),
    Pages("Books", OWNER, "month-open margin invoice-write-off"),
    Pages(
        "Invoices and payments",
        MONEY,
        "invoice-list invoice invoice-pdf invoice-xml invoice-new invoice-draft invoice-issue invoice-drop"
        " invoice-credit build-deposit build-invoice build-part build-call-off payment-list payment"
        " payment-receipt payment-take-back payment-new payment-back deposit-back",
    ),
    Pages(
        "Invoices and payments",
        ALL,
        "build-money build-extra build-extra-answer build-hours build-hours-correct",
    ),
    Pages("Catalogue", ALL, "catalogue:home catalogue:list catalogue:entry"),
    Pages(
        "Catalogue",
        OWNER,
        "catalogue:new catalogue:change replacement-ages tune"
        " catalogue-book catalogue-book-file catalogue-book-check catalogue-book-drop",
    ),
    Pages("Price lists", ALL, "listed-part part-search"),
    Pages(
        "Price lists",
        DESK,
        "price-list-list price-list price-list-effect price-list-check price-list-drop"
        " price-list-new price-list-columns price-list-refused",
    ),
    Pages(
        "Price lists",
        OWNER,
        "price-list-yes price-list-take price-list-undo price-list-terms exchange-rates exchange-rate-drop"
        " listed-part-offer",
    ),
    Pages("Lives", BUILDER, "lives life"),
    Pages(
        "Lives",
        OWNER,
        "lives-earlier lives-file evidence-withdraw life-back life-approve calibration shop-factor"
        " shop-factor-back learned",
    ),
)

Part = Literal[
    "margin", "what a number costs us", "what a build costs us", "acts of a booking",
    "money of a build", "work on a job", "strip without leave", "let something pass",
    "hand over unpaid", "invoice more than the yes", "decide on a life",
]  # fmt: skip
PARTS: dict[Part, frozenset[Role]] = {
    "margin": OWNER,
    "what a number costs us": OWNER,
    "what a build costs us": BOOKS,
    "acts of a booking": DESK,
    "money of a build": MONEY,
    "work on a job": WORKSHOP,
    "strip without leave": OWNER,
    "let something pass": OWNER,
    "hand over unpaid": OWNER,
    "invoice more than the yes": OWNER,
    "decide on a life": OWNER,
}
"""What on a page, or in an act, is for fewer than may open it."""

Person = AbstractBaseUser | AnonymousUser


@cache
def by_page() -> dict[str, Pages]:
    """The row of each page."""
    return {name: row for row in RIGHTS for name in row.names.split()}


def right_to(page: str, *, post: bool = False) -> Who:
    """Who may open a page, or send something to it; nobody where it stands in no row."""
    row = by_page().get(page)
    if row is None:
        return frozenset()
    return row.posts if post and row.posts is not None else row.who


def may_open(user: Person, page: str, *, post: bool = False) -> bool:
    """Whether a person may open a page. A customer's page asks for its link besides."""
    who = right_to(page, post=post)
    if who in (ANYBODY, LINK):
        return True
    return user.is_authenticated and (who == SIGNED_IN or bool(roles_of(user) & frozenset(who)))


def may(user: Person, part: Part) -> bool:
    """Whether a person may see or do what is for fewer than may open its page."""
    return bool(roles_of(user) & PARTS[part])
