"""What a demo workshop shows in the terminal: one engine's quote, and how to sign in."""

from __future__ import annotations

from pathlib import Path
from typing import cast

from django.conf import settings
from django.core.management.base import CommandError

from quotes.calc.demo.workshop import Style
from quotes.imports.demo.file import read_demo
from quotes.management.commands.load_demo import demo_password
from quotes.models import Quote, Revision, Workshop
from quotes.queries.sheets import sheet_of

WAYS_OF_BUILDING = 3


def shown_revision() -> Revision:
    """The issued quote that has most to show: worked out in every way of building, revised if one was."""
    issued = (
        Quote.objects.exclude(latest=None).select_related("latest__quote").order_by("-latest__index", "pk")
    )
    for quote in issued:
        assert quote.latest is not None
        if len(sheet_of(quote.latest).comparison.options) == WAYS_OF_BUILDING:
            return quote.latest
    raise CommandError("No quote of this demo compares every way of building.")


def sign_ins_in_words() -> str:
    """The demo's people with their password; nothing where the workshop is no demo."""
    workshop = Workshop.objects.first()
    if workshop is None or not workshop.demo_style:
        return ""
    try:
        password = demo_password()
    except CommandError:
        password = "(the password it was loaded with)"  # Words for who loads it. # noqa: S105
    demo = read_demo(Path(settings.BASE_DIR) / "fixtures" / "demo", cast(Style, str(workshop.demo_style)))
    people = [f"  {person.sign_in:<8} {password}" for person in demo.people]
    return "\n".join([f"Sign in to the demo of {workshop.name} as:", *people, ""])
