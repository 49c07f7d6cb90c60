"""How to sign in to a demo workshop, in words for the terminal."""

from __future__ import annotations

from pathlib import Path
from typing import cast

from django.conf import settings
from django.core.management.base import CommandError

from quotes.calc.demo import Style
from quotes.imports.demo_file import read_demo
from quotes.management.commands.load_demo import demo_password
from quotes.models import Workshop


def sign_ins_in_words() -> str:
    """The demo's people with their password; nothing where the workshop is no demo."""
    workshop = Workshop.objects.first()
    if workshop is None or not workshop.demo_style:
        return ""
    try:
        password = demo_password()
    except CommandError:
        password = "(the password it was loaded with)"
    demo = read_demo(Path(settings.BASE_DIR) / "fixtures" / "demo", cast(Style, str(workshop.demo_style)))
    people = [f"  {person.sign_in:<8} {password}" for person in demo.people]
    return "\n".join([f"Sign in to the demo of {workshop.name} as:", *people, ""])
