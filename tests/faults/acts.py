"""What people do while processes are killed: each act opens a page, fills in its form and sends it."""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import count

from tests.faults.browser import Browser, Form, Unanswered
from tests.faults.told import Sent
from tests.quotes.card_payload import payload

TRIES, PAUSE_SECONDS = 15, 1.0
ENGINE = {
    "type": "four600",
    "delivered": "loose",
    "past": "run",
    "history-0-amount": "4100",
    "history-0-unit": "mi",
    "history-0-duty": "sprint",
    "history-0-tier": "refresh",
}


@dataclass
class Person:
    """Somebody at a browser, what he has sent, and what he can go on with."""

    name: str
    browser: Browser
    chance: random.Random
    sent: list[Sent] = field(default_factory=list)
    open: list[tuple[Form, str, str]] = field(default_factory=list)
    """Forms that went unanswered, with what they make."""
    customers: list[str] = field(default_factory=list)
    engines: list[str] = field(default_factory=list)
    quotes: list[str] = field(default_factory=list)
    jobs: list[str] = field(default_factory=list)
    price_list: str = ""
    """The page of the one that is on its way in."""
    marks: count[int] = field(default_factory=lambda: count(1))

    def mark(self) -> str:
        """A word that nothing else bears."""
        return f"{self.name}-{next(self.marks):05}"

    def send(self, form: Form, what: str, mark: str) -> str:
        """Send it, and note whether it was answered; where it led."""
        try:
            led_to = self.browser.send(form)
        except Unanswered:
            self.sent.append(Sent(what, mark, told=False))
            self.open.append((form, what, mark))
            raise
        self.sent.append(Sent(what, mark, told=True))
        return led_to

    def send_again(self) -> None:
        """Every second form that went unanswered is sent again as it was; the others are given up."""
        waiting, self.open = self.open, []
        for form, what, mark in waiting:
            if self.chance.random() < 0.5:
                self._send_until_answered(form, what, mark)

    def _send_until_answered(self, form: Form, what: str, mark: str) -> None:
        """As the page asks that says the site is out of order: again after a pause, and not for ever."""
        for _ in range(TRIES):
            try:
                self.browser.send(form)
            except Unanswered:
                time.sleep(PAUSE_SECONDS)
            else:
                self.sent.append(Sent(what, mark, told=True))
                return
        self.send(form, what, mark)


Act = Callable[[Person], None]


def key_in(address: str) -> str:
    """The number in an address."""
    return next(part for part in address.split("/") if part.isdecimal())


def new_customer(one: Person) -> None:
    mark = one.mark()
    form = one.browser.form("/customers/new/", name=mark, telephone="000 117")
    one.customers.append(key_in(one.send(form, "customer", mark)))


def new_engine(one: Person) -> None:
    if not one.customers:
        return new_customer(one)
    mark, address = one.mark(), f"/customers/{one.chance.choice(one.customers)}/engines/new/"
    form = one.browser.form(address, **ENGINE, number=mark, do="keep")
    one.engines.append(key_in(one.send(form, "engine", mark)))
    return None


def new_quote(one: Person) -> None:
    mark = one.mark()
    first = one.browser.form("/quotes/new/")
    typed = payload(name=mark, number=f"N{mark}", email="")
    typed.pop("key")
    form = Form("/quotes/new/", first.fields | typed | {"do": "keep"})
    one.quotes.append(key_in(one.send(form, "quote", mark)))


def draft_changed(one: Person) -> None:
    """Each change of a draft asks for a little more than the one before."""
    if not one.quotes:
        return new_quote(one)
    quote, amount = one.quotes[-1], str(2000 + next(one.marks))
    form = one.browser.form(f"/quotes/{quote}/card/", planned__amount=amount, do="keep")
    one.send(form, "change of a draft", f"{quote}:{amount}")
    return None


def quote_issued(one: Person) -> None:
    if not one.quotes:
        return new_quote(one)
    quote = one.quotes.pop(0)
    form = one.browser.form(f"/quotes/{quote}/", "/issue/", class_tick="on")
    one.send(form, "issue of a quote", quote)
    return None


def payment(one: Person) -> None:
    mark, payer = one.mark(), one.chance.choice(one.customers)
    form = one.browser.form(
        f"/payments/new/?customer={payer}", amount="12.50", method="cash", reference=mark, do="take"
    )
    one.send(form, "payment", mark)


def sale_issued(one: Person) -> None:
    """A sale without a build: the draft, then its invoice."""
    mark = one.mark()
    payer = one.browser.form(f"/payments/new/?customer={one.chance.choice(one.customers)}").fields[
        "customer"
    ][0]
    form = one.browser.form("/invoices/new/")
    form.fields.update(
        {"head-payer": payer, "new-description": mark, "new-quantity": "2", "new-unit_price": "11.05"}
    )
    draft = one.send(form, "draft of an invoice", mark)
    form = one.browser.form(draft, f"drafts/{key_in(draft)}/", do="issue")
    one.send(Form(f"{draft}issue/", form.fields), "invoice", key_in(draft))


def engine_taken_in(one: Person) -> None:
    if not one.engines:
        return new_engine(one)
    mark, engine = one.mark(), one.engines.pop()
    form = one.browser.form(
        f"/bench/new/?engine={engine}", brought_by="Marel Otten", right_to_hand_over="owner", tag=mark
    )
    form = Form(
        f"/bench/new/?engine={engine}", form.fields | {"delivered": "loose", "service_known": "unknown"}
    )
    one.jobs.append(key_in(one.send(form, "engine taken in", mark)))
    return None


def clock(one: Person) -> None:
    """The clock is started where it stands, and stopped where it runs."""
    if not one.jobs:
        return engine_taken_in(one)
    job = one.chance.choice(one.jobs)
    page = one.browser.page(f"/bench/{job}/clock/")
    running = next((form.action for form in page.forms if (form.action or "").endswith("/stop/")), None)
    if running:
        form = one.browser.form(f"/bench/{job}/clock/", "/stop/")
        one.send(form, "clock stopped", key_in(form.address))
    else:
        form = one.browser.form(f"/bench/{job}/clock/", "/clock/start/")
        one.send(form, "clock started", form.fields["key"][0])
    return None


PRICED = 300
"""Articles in a list that is handed in."""


def priced(mark: str, articles: int) -> str:
    """A price list whose articles nothing else bears."""
    rows = [f"{mark}-{line};dowel {line};{line % 90 + 1},50" for line in range(articles)]
    return "\n".join(["Part number;Description;Net price", *rows, ""])


def price_list(one: Person) -> None:
    """The next step of a list: handed in, its columns kept, checked, and taken in."""
    browser = one.browser
    if not one.price_list:
        mark = one.mark()
        form = browser.form("/catalogue/price-lists/new/", supplier="seal_house")
        form.fields.pop("file", None)
        file = (f"{mark}.csv", priced(mark, PRICED))
        one.price_list = browser.send(Form(form.address, form.fields, file)).removesuffix("columns/")
        browser.send(browser.form(f"{one.price_list}columns/", keep="yes"))
        return
    ends = [form.action or "" for form in browser.page(one.price_list).forms]
    if any(action.endswith("/take/") for action in ends):
        taken, one.price_list = one.price_list, ""
        one.send(browser.form(taken, "/take/"), "taking in of a price list", key_in(taken))
    elif any(action.endswith("/check/") for action in ends):
        form = browser.form(one.price_list, "/check/")
        form.fields.pop("whole", None)
        browser.send(form)
    else:
        time.sleep(0.2)


Duties = tuple[tuple[Act, int], ...]
"""Acts, and how often each is done; what draws a paper keeps a processor for seconds."""
DESK: Duties = ((new_customer, 6), (new_engine, 5), (new_quote, 2), (draft_changed, 5), (quote_issued, 1))
BOOKS: Duties = ((payment, 9), (sale_issued, 1))
OWNER: Duties = ((price_list, 1),)
BENCH: Duties = ((engine_taken_in, 1), (clock, 4))
