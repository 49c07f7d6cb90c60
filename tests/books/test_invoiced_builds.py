"""A build says itself whether an invoice of it stands, and says what all its documents come to."""

from __future__ import annotations

from importlib import import_module
from types import SimpleNamespace

from django.apps import apps
from django.db.models import QuerySet

from quotes.models import Acceptance
from quotes.queries.record.money import invoiced_builds
from tests.books import cast


def test_it_is_invoiced_until_all_of_it_was_taken_back_and_then_anew(build: Acceptance) -> None:
    cast.deposited(build)
    assert not said(build)
    first = cast.invoiced(build, kinds={"labour"})
    assert said(build)
    second = cast.invoiced(build)
    cast.credited(first)
    cast.credited(second, {1: "0.5"})
    assert said(build)
    cast.credited(second)
    assert not said(build)
    cast.invoiced(build)
    assert said(build)


def said(build: Acceptance) -> bool:
    """By the build itself, which its documents bear out; and the migration would have said the same."""
    assert [str(fault) for faults in invoiced_builds() for fault in faults] == []
    invoiced = Acceptance.objects.get(pk=build.pk).invoiced_at is not None
    QuerySet(Acceptance).update(invoiced_at=None)
    migration = import_module("quotes.migrations.0021_builds_invoiced")
    migration.mark_invoiced(SimpleNamespace(get_model=plain), None)
    assert (Acceptance.objects.get(pk=build.pk).invoiced_at is not None) == invoiced
    return invoiced


def plain(app: str, name: str) -> SimpleNamespace:
    """A model as a migration knows it: nothing refuses to change its rows."""
    return SimpleNamespace(objects=QuerySet(apps.get_model(app, name)))
