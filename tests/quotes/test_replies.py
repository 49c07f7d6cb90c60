"""Questions and refusals from the customer's page, and the workshop's answers."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.answers import answer, ask, decline
from quotes.actions.refused import AlreadyAccepted
from quotes.models import Quote, Reply, Revision
from tests.cast import desk
from tests.quotes import cast
from tests.quotes.cast import NOW, ON

LATER = NOW + timedelta(hours=1)
QUESTION = "Could you leave the clutch plates in?"


def state() -> str:
    return Quote.objects.with_state(ON).get().state


def test_a_question_makes_the_quote_asked_about(revision: Revision) -> None:
    ask(revision=revision, text=QUESTION, name="Marel Otten", now=NOW)

    assert state() == "asked"


def test_the_same_question_twice_is_kept_once(revision: Revision) -> None:
    ask(revision=revision, text=QUESTION, name="Marel Otten", now=NOW)
    ask(revision=revision, text=QUESTION, name="Marel Otten", now=LATER)

    assert Reply.objects.count() == 1


def test_an_empty_question_is_refused_at_its_field(revision: Revision) -> None:
    with pytest.raises(ValidationError) as told:
        ask(revision=revision, text="  ", name="Marel Otten", now=NOW)

    assert list(told.value.message_dict) == ["text"]


@pytest.mark.parametrize("text", ["what\x00", "w" * 10_000], ids=["NUL", "long"])
def test_a_question_that_can_not_be_kept_is_refused_and_nothing_is_stored(
    revision: Revision, text: str
) -> None:
    with pytest.raises(ValidationError):
        ask(revision=revision, text=text, name="Marel Otten", now=NOW)

    assert (Reply.objects.count(), state()) == (0, "issued")


def test_once_every_question_is_answered_the_quote_waits_for_the_customer_again(revision: Revision) -> None:
    first = ask(revision=revision, text=QUESTION, name="Marel Otten", now=NOW)
    second = ask(revision=revision, text="And when?", name="Marel Otten", now=NOW)

    answer(reply=first, text="Yes.", by=desk(), now=LATER)
    assert state() == "asked"
    answer(reply=second, text="In March.", by=desk(), now=LATER)
    assert state() == "issued"


def test_an_answer_keeps_who_gave_it(revision: Revision) -> None:
    question = ask(revision=revision, text=QUESTION, name="Marel Otten", now=NOW)

    answered = answer(reply=question, text="Yes.", by=desk(), now=LATER)

    assert (answered.answer, answered.answered_by, answered.answered_at) == ("Yes.", "Dessa Quill", LATER)


def test_a_no_keeps_its_reason(revision: Revision) -> None:
    decline(revision=revision, text="The season is off.", name="Marel Otten", now=NOW)

    assert state() == "declined"
    assert Reply.objects.get().text == "The season is off."


def test_the_same_no_twice_is_kept_once(revision: Revision) -> None:
    decline(revision=revision, text="The season is off.", name="Marel Otten", now=NOW)
    decline(revision=revision, text="The season is off.", name="Marel Otten", now=LATER)

    assert Reply.objects.count() == 1


def test_a_new_revision_opens_a_declined_quote_again(revision: Revision) -> None:
    from tests.sample_sheet import sample_comparison

    decline(revision=revision, text="Too dear.", name="Marel Otten", now=NOW)
    cast.issued(revision.quote, now=LATER, comparison=sample_comparison(planned_in_words="1,200 miles"))

    assert state() == "issued"


def test_after_a_yes_a_no_is_refused(revision: Revision) -> None:
    cast.accepted(revision)

    with pytest.raises(AlreadyAccepted):
        decline(revision=revision, text="Changed my mind.", name="Marel Otten", now=LATER)
