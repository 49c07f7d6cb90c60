"""The keys of the desk: the one list that the page of keys shows and the script goes by."""

from __future__ import annotations

from dataclasses import dataclass, replace

from catalogue.calc.said import say, to_say

ARROWS = to_say("Arrow keys")
ON_THE_KEYBOARD = (to_say("Ctrl"), to_say("Escape"), to_say("Space"), to_say("Tab"))
"""Keys that bear a word, which another keyboard says otherwise."""


@dataclass(frozen=True, slots=True)
class Key:
    """What is pressed, one key after the other, and what comes of it.

    It opens a page (`page`, the name of its address), presses what a selector finds (`press`), or is known to
    the browser or to a script of its own, and only told here.
    """

    keys: str
    does: str
    page: str = ""
    press: str = ""

    @property
    def caps(self) -> list[str]:
        """Each key as its own word, as it is printed on the keyboard."""
        if self.keys == ARROWS:
            return [say(self.keys)]
        return [say(key) if key in ON_THE_KEYBOARD else key for key in self.keys.split()]

    def said(self) -> Key:
        """The same, told in the reader's language."""
        return replace(self, does=say(self.does))


@dataclass(frozen=True, slots=True)
class KeyGroup:
    """Keys that belong together."""

    title: str
    keys: tuple[Key, ...]

    def said(self) -> KeyGroup:
        """The same, told in the reader's language."""
        return KeyGroup(say(self.title), tuple(key.said() for key in self.keys))


EVERYWHERE = KeyGroup(
    "On every page",
    (
        Key("?", "These keys", press="#keys-link"),
        Key("/", "Find anything: a customer, an engine number, a quote, an invoice, a part"),
        Key("Tab", "On to the next field or link, with Shift back; the first one skips the head"),
        Key("[", "The page before in a long list", press="a[rel=prev]"),
        Key("]", "The page after in a long list", press="a[rel=next]"),
        Key("Escape", "Put away what hangs open, and stand where one stood before"),
    ),
)
GO = KeyGroup(
    "Go to",
    (
        Key("g t", "Today", page="home"),
        Key("g q", "Quotes", page="quote-list"),
        Key("g e", "Enquiries", page="enquiry-list"),
        Key("g w", "Weeks on the bench", page="slots"),
        Key("g c", "Customers", page="customer-list"),
        Key("g m", "Engines", page="engine-list"),
        Key("g b", "Bench", page="bench"),
        Key("g f", "What falls due", page="due-list"),
        Key("g o", "Orders", page="order-list"),
        Key("g i", "Invoices", page="invoice-list"),
        Key("g p", "Payments", page="payment-list"),
        Key("g d", "Overdue", page="overdue"),
        Key("g k", "Books", page="books-home"),
        Key("g a", "Catalogue", page="catalogue:home"),
        Key("g l", "Lives", page="lives"),
        Key("g s", "Settings", page="settings"),
    ),
)
BEGIN = KeyGroup(
    "Begin something new",
    (
        Key("n q", "A quote or an enquiry", page="new-quote"),
        Key("n c", "A customer", page="customer-new"),
        Key("n e", "Take an engine in", page="job-new"),
        Key("n i", "An invoice without a build", page="invoice-new"),
        Key("n p", "Take a payment", page="payment-new"),
        Key("n b", "A supplier's bill", page="bill-new"),
    ),
)
IN_FORMS = KeyGroup(
    "In cards and sheets",
    (
        Key("Ctrl Enter", "Press the first button of the card one is in, also from a field of several lines"),
        Key("Enter", "On a quote's card and on a draft: work it out, keep nothing"),
        Key("Space", "Take a line of the sheet in or out; tick a box; press a button"),
        Key(ARROWS, "Another choice; up and down through what was found"),
    ),
)
KEY_GROUPS = (EVERYWHERE, GO, BEGIN, IN_FORMS)
