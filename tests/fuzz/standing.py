"""A demo workshop with what the demo leaves out: files that wait, links, somebody half signed in."""

from __future__ import annotations

from io import StringIO
from typing import Any

from django.contrib.auth.models import User
from django.contrib.auth.tokens import default_token_generator
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import call_command
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from django.utils.encoding import force_bytes
from django.utils.http import urlsafe_base64_encode

from quotes.actions.links import new_link
from quotes.models import Quote, Telephone
from tests.fuzz.site import NOBODY, Site, sessions, walk
from tests.fuzz.tables import BANK, CUSTOMERS, as_csv

ROLES = ("owner", "desk", "builder", "books")
LINKS = 8
PAGES_EACH = 4
"""So many pages of one address are read for their forms: they differ by how far a thing has come."""
HALF_WAY = "half-way"


def demo(style: str) -> None:
    """The demo with its year, unless this database holds it."""
    call_command("migrate", verbosity=0)
    if not Quote.objects.exists():
        call_command("load_demo", style=style, year=True, stdout=StringIO())


def standing() -> Site:
    """The site, walked as every role, as a customer and as somebody half signed in."""
    site = Site(sessions(*(_of_role(role) for role in ROLES)))
    owner = User.objects.get(username="owner")
    starts = ["/", *(_link(quote, owner) for quote in _various())]
    starts += [_handed_in(owner, "import-customers", "customers.csv", as_csv(CUSTOMERS))]
    starts += [_handed_in(owner, "bank-new", "bank.csv", as_csv(BANK))]
    starts += [_way_back(owner)]
    site.sessions[HALF_WAY] = _half_way()
    site.sessions[NOBODY] = ""
    return walk(site, starts, most=PAGES_EACH)


def _of_role(role: str) -> User:
    """The demo names a sign-in by its role; a role that it has nobody of is given to somebody new."""
    from quotes.actions.people import give_role

    user, made = User.objects.get_or_create(username=role, defaults={"first_name": role.title()})
    if made:
        give_role(user=user, role=role)  # type: ignore[arg-type]
    return user


def _various() -> list[Quote]:
    """Quotes that were issued: open, accepted, with findings, of the first days and of the last."""
    issued = list(Quote.objects.exclude(revisions=None).order_by("pk").distinct())
    accepted = [quote for quote in issued if quote.accepted_at]
    others = [quote for quote in issued if not quote.accepted_at]
    return [*accepted[-LINKS // 2 :], *others[-LINKS // 2 :]]


def _link(quote: Quote, owner: User) -> str:
    made = new_link(quote=quote, by=owner, now=timezone.now())
    return reverse("customer-quote", args=[made.token])


def _handed_in(owner: User, name: str, called: str, content: bytes) -> str:
    """Hands a sound file in and leaves it waiting."""
    client = Client()
    client.force_login(owner)
    response: Any = client.post(reverse(name), {"file": SimpleUploadedFile(called, content)})
    assert response.status_code == 302, f"{called} was refused: {response.content.decode()[:2000]}"
    return str(response["Location"])


def _way_back(user: User) -> str:
    key = urlsafe_base64_encode(force_bytes(user.pk))
    return reverse("way-back", args=[key, default_token_generator.make_token(user)])


def _half_way() -> str:
    """The session of somebody whose password was right and who owes the code."""
    user = User.objects.create_user("Una Halfway", password="a-long-test-password")
    Telephone.learning(user)
    Telephone.objects.filter(user=user).update(confirmed=True)
    client = Client()
    client.post(reverse("sign-in"), {"username": user.username, "password": "a-long-test-password"})
    return str(client.cookies["sessionid"].value)
