"""Every change is told of in its own transaction: who, what, from what to what; and nothing is told twice."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from decimal import Decimal

import pytest
from django.contrib.auth.models import AnonymousUser, User
from django.db import DatabaseError, connection, transaction

from catalogue.actions.editing import Edit, change_entry
from quotes.actions.audit.who import a_person, acting_as
from quotes.actions.links import new_link
from quotes.actions.settings import save_settings
from quotes.actions.sign_ins import add_person, change_password
from quotes.calc.record.chain import START
from quotes.models import AuditEntry, AuditHead, Customer, LabourRate, Workshop
from quotes.queries.record.chained import chained_changes
from quotes.queries.settings import settings_now
from tests.audit.written import told, written
from tests.cast import PASSWORD, owner
from tests.quotes import cast
from tests.shipped import load_shipped

pytestmark = pytest.mark.django_db
# What is told is the same on both databases; that it is kept, and from whom, is asked on both.
NOW = cast.NOW


def faults() -> list[str]:
    return [str(fault) for found in chained_changes() for fault in found]


def test_a_change_says_who_and_from_what_to_what() -> None:
    with acting_as(lambda: a_person(owner())):
        row = cast.customer()
        row.telephone = "0815"
        row.save()
    added, changed = written("quotes.customer")
    assert (added.action, changed.action) == ("added", "changed")
    assert (changed.by_kind, changed.by_id) == ("person", str(owner().pk))
    assert told(changed) == {
        ":record": (None, row.name),
        ":by": (None, "Orla Venn"),
        "telephone": (told(added).get("telephone", (None, ""))[1], "0815"),
    }


def test_what_is_rolled_back_is_not_told_of() -> None:
    row = cast.customer()
    before = len(written())
    with suppress(ZeroDivisionError), transaction.atomic():
        row.name = "Somebody else"
        row.save()
        _ = 1 / 0
    assert len(written()) == before


@pytest.mark.one_database
def test_a_secret_is_never_written_down() -> None:
    user = add_person(name="nora", password=PASSWORD, role="desk")
    change_password(user=user, password="another-long-password", session_key=None)
    revision = cast.issued(cast.draft(cast.engine(cast.customer())))
    made = new_link(quote=revision.quote, by=owner(), now=NOW)
    entries = written()
    said = " ".join(entry.words.told for entry in entries)
    user.refresh_from_db()
    assert not any(secret in said for secret in (user.password, PASSWORD, made.token, made.link.token_hash))
    hers = [told(one) for one in entries if (one.record_type, one.record_id) == ("auth.user", str(user.pk))]
    assert [one["password"] for one in hers if "password" in one] == [
        (None, "(not shown)"),
        ("(not shown)", "(not shown)"),
    ]


def test_a_role_given_is_told_of_with_the_person() -> None:
    user = add_person(name="nora", password=PASSWORD, role="books")
    assert {told(one)["role"] for one in written("auth.user") if "role" in told(one)} == {(None, "books")}
    user.groups.clear()
    assert told(written("auth.user")[-1])["role"] == ("books", None)


@pytest.mark.one_database
def test_of_settings_written_anew_only_what_differs_is_told_of() -> None:
    settings = settings_now(cast.workshop())
    kind = next(iter(settings.labour_rates))
    for rate in ("98.50", "99.50"):
        before = len(written())
        changed = replace(settings, labour_rates={**settings.labour_rates, kind: Decimal(rate)})
        version = Workshop.objects.get().version
        save_settings(settings=changed, expected_version=version, by=owner(), now=NOW)
    new = [one for one in written()[before:] if one.record_type == LabourRate._meta.label_lower]
    assert [(one.action, told(one)["per_hour"]) for one in new] == [
        ("deleted", ("98.5", None)),
        ("added", (None, "99.5")),
    ]


@pytest.mark.one_database
def test_a_changed_card_is_one_entry() -> None:
    load_shipped()
    change_entry(edit=Edit("components", "clutch_friction", {"note": "Soaked first"}, 1), by=owner(), now=NOW)
    (card,) = written("catalogue.component")
    assert (card.record_id, told(card)["note"][1]) == ("clutch_friction", "Soaked first")


def test_entries_are_chained_and_sound() -> None:
    cast.customer()
    first, *_ = written()
    cast.customer("Ilse Brandt")
    written()
    assert (first.number, first.previous) == (1, START)
    assert faults() == []
    assert AuditHead.objects.get().count == AuditEntry.objects.count()


@pytest.mark.parametrize(
    "statement",
    [
        "DELETE FROM quotes_auditentry",
        "UPDATE quotes_auditentry SET by_id = '7'",
        "DELETE FROM quotes_auditwords",
        "UPDATE quotes_auditwords SET told = '{}'",
        "UPDATE quotes_audithead SET count = 0",
        "UPDATE quotes_audithead SET hash = 'x'",
        "DELETE FROM quotes_audithead",
        "INSERT INTO quotes_auditentry SELECT number + 7, at, by_kind, by_id, action, record_type, record_id,"
        " under_type, under_id, digest, previous, 'x' FROM quotes_auditentry WHERE number = 1",
    ],
)
def test_the_database_refuses_to_touch_the_record_of_changes(statement: str) -> None:
    cast.customer()
    written()
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(statement)
    assert faults() == []


def test_what_a_visitor_does_is_on_nobodys_account() -> None:
    with acting_as(lambda: a_person(AnonymousUser())):
        Customer.objects.create(name="Marel Otten", created_at=NOW)
    (entry,) = written("quotes.customer")
    assert (entry.by_kind, entry.by_id, told(entry)[":by"][1]) == ("person", "", "not signed in")
    assert not User.objects.exists()
