"""Several people pressing the same button at the same moment."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from decimal import Decimal
from threading import Barrier
from typing import TypeVar

import pytest
from django.db import connection

from quotes.actions.answers import ask
from quotes.actions.drafts import keep_quote, save_draft
from quotes.actions.refused import StaleDraft
from quotes.models import Acceptance, Engine, Quote, Reply, Revision
from tests.cast import desk
from tests.quotes import cast
from tests.quotes.cast import NOW, request

AT_ONCE = 4
Result = TypeVar("Result")

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture(autouse=True)
def no_documents(monkeypatch: pytest.MonkeyPatch) -> None:
    """No paper is drawn after each issue and each yes: who comes first is decided before."""
    monkeypatch.setattr("quotes.actions.issuing.run_later", lambda *work, **told: None)
    monkeypatch.setattr("quotes.actions.accepting.render_receipt", lambda acceptance_id: None)


@pytest.fixture
def draft() -> Quote:
    """A draft in a workshop that is set up, seen by every connection."""
    cast.workshop()
    return cast.draft(cast.engine(cast.customer()))


def at_once(press: Callable[[int], Result]) -> list[Result]:
    """What each of the threads got that pressed together."""
    together = Barrier(AT_ONCE)

    def one(number: int) -> Result:
        try:
            connection.ensure_connection()
            together.wait(30)
            return press(number)
        finally:
            connection.close()

    with ThreadPoolExecutor(AT_ONCE) as pool:
        return list(pool.map(one, range(AT_ONCE)))


def test_one_draft_issued_by_several_gets_one_revision_and_one_number(draft: Quote) -> None:
    desk()

    issued = at_once(lambda _: cast.issued(draft).pk)

    assert len(set(issued)) == 1
    assert Revision.objects.get().quote.number == "Q-2026-0001"


def test_one_yes_sent_several_times_is_one_acceptance(draft: Quote) -> None:
    revision = cast.issued(draft)

    accepted = at_once(lambda _: cast.accepted(Revision.objects.get(pk=revision.pk)).pk)

    assert len(set(accepted)) == 1
    assert Acceptance.objects.count() == 1


def test_one_question_sent_several_times_is_one_question(draft: Quote) -> None:
    revision = cast.issued(draft)

    def press(_: int) -> int:
        shown = Revision.objects.get(pk=revision.pk)
        return ask(revision=shown, text="When?", name="Marel Otten", now=NOW).pk

    assert len(set(at_once(press))) == 1
    assert Reply.objects.count() == 1


def test_one_call_kept_several_times_is_one_draft() -> None:
    cast.workshop()
    of = cast.engine(cast.customer())
    by = desk()

    def press(_: int) -> int:
        engine = Engine.objects.select_related("customer").get(pk=of.pk)
        return keep_quote(customer=engine.customer, engine=engine, request=request(), by=by, now=NOW).pk

    assert len(set(at_once(press))) == 1


def test_of_several_changes_to_one_draft_one_is_kept_and_the_others_are_told(draft: Quote) -> None:
    by = desk()

    def press(number: int) -> bool:
        changed = request(target=Decimal(f"0.9{number}"))
        try:
            save_draft(quote=draft, request=changed, expected_version=1, by=by, now=NOW)
        except StaleDraft:
            return False
        return True

    assert at_once(press).count(True) == 1
    assert Quote.objects.get().version == 2
