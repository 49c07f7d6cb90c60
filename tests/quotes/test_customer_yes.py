"""What the customer says: a yes with its sum, a question, a no; faults stand at their field."""

from __future__ import annotations

import html
import re
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.http import HttpResponse
from django.test import Client
from django.utils import timezone

from quotes.actions.links import new_link
from quotes.calc.money.extras import extras_of
from quotes.models import Acceptance, Quote, Reply, Revision
from tests.cast import desk
from tests.quotes import cast
from tests.sample_sheet import sample_comparison, sample_options

SAMPLE = sample_comparison()
MILD = SAMPLE.option("mild")
EXTRA = extras_of(MILD)[0]


@pytest.fixture
def now(quote: Quote) -> Revision:
    return cast.issued(quote, now=timezone.now())


@pytest.fixture
def token(now: Revision) -> str:
    return new_link(quote=now.quote, by=desk(), now=timezone.now()).token


def payload(**change: Any) -> dict[str, Any]:
    """A yes to the mild build as the page sends it; None leaves a field out."""
    fields = {
        "yes-shown": "1",
        "yes-option": "mild",
        "yes-name": "Marel Otten",
        "yes-right": "owner of the engine",
        "yes-limit": "200.00",
        "yes-telephone": "000 555 0199",
        "yes-safety": "on",
        "yes-terms": "on",
    } | {f"yes-{key}": value for key, value in change.items()}
    return {key: value for key, value in fields.items() if value is not None}


def say_yes(client: Client, token: str, **change: Any) -> HttpResponse:
    return client.post(f"/q/{token}/yes/", payload(**change))  # type: ignore[return-value]


def words(answer: Any) -> str:
    plain = re.sub(r"<[^>]*>", " ", answer.content.decode())
    return " ".join(html.unescape(plain).replace("\N{NO-BREAK SPACE}", " ").split())


def test_a_yes_is_recorded_with_who_what_and_the_sum_shown(client: Client, token: str, now: Revision) -> None:
    answer = say_yes(client, token)
    assert (answer.status_code, answer["Location"]) == (302, f"/q/{token}/receipt/#main")
    yes = Acceptance.objects.get()
    assert (yes.tier, yes.name, yes.right, yes.telephone) == (
        "mild",
        "Marel Otten",
        "owner of the engine",
        "000 555 0199",
    )
    assert (yes.gross, yes.limit_sum) == (MILD.gross.typical, Decimal("200.00"))
    assert yes.sheet_sha256 == now.sheet_sha256
    assert yes.rider_safety_read
    assert yes.agreed_terms


def test_an_extra_ticked_under_the_option_is_in_the_sum(client: Client, token: str) -> None:
    say_yes(client, token, extras_mild=[EXTRA.component])
    yes = Acceptance.objects.get()
    assert yes.extras == [EXTRA.component]
    assert yes.gross == MILD.gross.typical + EXTRA.gross


def test_what_is_ticked_under_another_option_does_not_count(client: Client, token: str) -> None:
    say_yes(client, token, extras_refresh=[EXTRA.component])
    assert Acceptance.objects.get().extras == []


def test_the_price_beside_an_extra_is_the_one_it_adds(client: Client, token: str) -> None:
    content = client.get(f"/q/{token}/").content.decode()
    assert f"at most ${EXTRA.gross:,.2f} more" in content


def test_the_receipt_says_what_was_said(client: Client, token: str, now: Revision) -> None:
    say_yes(client, token, extras_mild=[EXTRA.component])
    said = words(client.get(f"/q/{token}/receipt/"))
    gross = MILD.gross.typical + EXTRA.gross
    assert f"Marel Otten said yes to mild build for ${gross:,.2f} with tax" in said
    assert "up to $200.00" in said
    assert "Cam chain tensioner" in said
    assert now.sheet_sha256 in said


def test_the_receipt_on_paper_is_the_stored_one(client: Client, token: str) -> None:
    say_yes(client, token)
    answer = client.get(f"/q/{token}/receipt.pdf")
    yes = Acceptance.objects.get()
    assert yes.receipt is not None
    assert answer.content == bytes(yes.receipt.content)
    assert answer.content.startswith(b"%PDF")


def test_before_the_yes_a_receipt_leads_to_the_quote(client: Client, token: str) -> None:
    for path in ("receipt/", "receipt.pdf"):
        assert client.get(f"/q/{token}/{path}")["Location"] == f"/q/{token}/"


def test_the_same_yes_sent_twice_is_one_acceptance(client: Client, token: str) -> None:
    assert say_yes(client, token).status_code == 302
    assert say_yes(client, token).status_code == 302
    assert Acceptance.objects.count() == 1


def test_a_second_yes_to_something_else_is_refused_kindly(client: Client, token: str) -> None:
    say_yes(client, token)
    said = words(say_yes(client, token, option="full"))
    assert "Marel Otten has said yes to Mild build." in said
    assert Acceptance.objects.get().tier == "mild"


FAULTS = [
    ({"option": None}, "Nothing is picked: pick one of the ways"),
    ({"option": "turbo"}, "Nothing is picked: pick one of the ways"),
    ({"name": ""}, "we need to know who says yes"),
    ({"name": "   "}, "we need to know who says yes"),
    ({"name": "M\x00rel"}, "holds a character that can't be kept"),
    ({"name": "M" * 10_000}, "has 10,000 characters: at most 200 are kept"),
    ({"right": ""}, "Nothing is picked. It can be: owner of the engine"),
    ({"right": "passer-by"}, "“passer-by” is not one of: owner of the engine"),
    ({"limit": "-5"}, "“-5” is not a number from 0 to 9999999.99"),
    ({"limit": "much"}, "“much” is not a number from 0 to 9999999.99"),
    ({"limit": "1e30"}, "is not a number from 0 to 9999999.99"),
    ({"limit": ""}, "Nothing is given: a number from 0"),
    ({"telephone": "5" * 10_000}, "at most 40 are kept"),
    ({"terms": None}, "Not ticked: a yes counts only with the terms."),
    ({"safety": None}, "Not ticked: parts that can lock the wheel or oil the tyre are left."),
]


@pytest.mark.parametrize(("change", "fault"), FAULTS, ids=[fault for _, fault in FAULTS])
def test_a_fault_stands_at_its_field_and_nothing_is_recorded(
    client: Client, token: str, change: dict[str, Any], fault: str
) -> None:
    said = words(say_yes(client, token, **change))
    assert fault in said
    assert "Nothing was recorded yet" in said
    assert Acceptance.objects.count() == 0


def test_what_was_typed_stays_after_a_fault(client: Client, token: str) -> None:
    answer = say_yes(client, token, terms=None, extras_mild=[EXTRA.component], limit="1,250")
    content = answer.content.decode()
    assert 'value="Marel Otten"' in content
    assert 'value="1,250"' in content
    assert 'value="000 555 0199"' in content
    assert re.search(r'value="mild" id="pick-2" checked', content)
    assert re.search(rf'name="yes-extras_mild" value="{EXTRA.component}" checked', content)
    assert '<option value="owner of the engine" selected>' in content
    assert "Nothing is given" not in content


def test_a_fault_is_tied_to_its_field_for_a_screen_reader(client: Client, token: str) -> None:
    content = say_yes(client, token, name="").content.decode()
    field = re.search(r'<input[^>]*name="yes-name"[^>]*>', content)
    assert field
    assert 'aria-invalid="true"' in field.group(0)
    named = re.search(r'aria-describedby="([^" ]+)', field.group(0))
    assert named
    assert f'id="{named.group(1)}"' in content


def test_no_safety_tick_is_asked_where_nothing_of_the_kind_is_left(client: Client, quote: Quote) -> None:
    options = tuple(option.model_copy(update={"left": {}, "offered": {}}) for option in sample_options())
    safe = cast.issued(quote, now=timezone.now(), comparison=sample_comparison(options=options))
    token = new_link(quote=safe.quote, by=desk(), now=timezone.now()).token
    assert "yes-safety" not in client.get(f"/q/{token}/").content.decode()
    assert say_yes(client, token, safety=None).status_code == 302


def test_a_yes_to_an_older_revision_is_refused_and_the_newer_one_shown(
    client: Client, token: str, now: Revision
) -> None:
    shorter = sample_comparison(planned_in_words="1,200 miles of endurance racing")
    cast.issued(now.quote, now=timezone.now(), comparison=shorter)
    said = words(say_yes(client, token))
    assert "Since then we have sent you revision 2 of this quote" in said
    assert Acceptance.objects.count() == 0


def test_after_that_the_form_speaks_of_the_newer_revision(client: Client, token: str, now: Revision) -> None:
    shorter = sample_comparison(planned_in_words="1,200 miles of endurance racing")
    cast.issued(now.quote, now=timezone.now(), comparison=shorter)
    content = say_yes(client, token).content.decode()
    assert re.search(r'name="yes-shown" value="2"', content)


def test_a_yes_that_does_not_say_to_which_revision_is_refused(client: Client, token: str) -> None:
    for shown in (None, "x", "0"):
        say_yes(client, token, shown=shown)
    assert Acceptance.objects.count() == 0


def test_a_lapsed_quote_can_not_be_said_yes_to(client: Client, quote: Quote) -> None:
    old = cast.issued(quote, now=timezone.now() - timedelta(days=90))
    token = new_link(quote=old.quote, by=desk(), now=timezone.now()).token
    said = words(say_yes(client, token))
    assert "This quote stood until" in said
    assert Acceptance.objects.count() == 0


def test_none_of_these_asks_to_be_rung(client: Client, token: str) -> None:
    answer = say_yes(client, token, option="none", right=None, terms=None, safety=None)
    assert answer["Location"] == f"/q/{token}/#said"
    reply = Reply.objects.get()
    assert reply.text == "None of these yet: please ring me. Telephone 000 555 0199."
    assert reply.name == "Marel Otten"
    assert Acceptance.objects.count() == 0


def test_who_wants_to_be_rung_has_to_give_a_number(client: Client, token: str) -> None:
    said = words(say_yes(client, token, option="none", telephone=""))
    assert "we need a number to ring you on" in said
    assert Reply.objects.count() == 0


def test_a_question_is_kept_and_shown(client: Client, token: str) -> None:
    sent = {"ask-text": "Is the dyno run in it?", "ask-name": "Marel Otten"}
    assert client.post(f"/q/{token}/question/", sent)["Location"] == f"/q/{token}/#said"
    assert Reply.objects.get().kind == "question"
    assert "Is the dyno run in it?" in words(client.get(f"/q/{token}/"))


def test_a_no_is_kept_with_its_reason(client: Client, token: str) -> None:
    sent = {"no-text": "Too dear this year.", "no-name": "Marel Otten"}
    assert client.post(f"/q/{token}/no/", sent)["Location"] == f"/q/{token}/#said"
    reply = Reply.objects.get()
    assert (reply.kind, reply.text) == ("decline", "Too dear this year.")


def test_a_no_needs_no_reason(client: Client, token: str) -> None:
    client.post(f"/q/{token}/no/", {"no-text": "", "no-name": "Marel Otten"})
    assert Reply.objects.get().text == ""


def test_after_a_yes_there_is_no_no(client: Client, token: str) -> None:
    say_yes(client, token)
    client.post(f"/q/{token}/no/", {"no-text": "", "no-name": "Marel Otten"})
    assert Reply.objects.count() == 0
    assert Quote.objects.get().declined_at is None


@pytest.mark.parametrize(
    ("path", "sent", "fault"),
    [
        ("question", {"ask-text": "", "ask-name": "M"}, "Nothing is given."),
        ("question", {"ask-text": "a\x00b", "ask-name": "M"}, "can't be kept"),
        ("question", {"ask-text": "a" * 10_000, "ask-name": "M"}, "at most 4,000 are kept"),
        ("no", {"no-text": "x", "no-name": ""}, "Nothing is given."),
        ("no", {"no-text": "x" * 10_000, "no-name": "M"}, "at most 4,000 are kept"),
    ],
)
def test_a_question_or_a_no_that_can_not_be_kept_says_why(
    client: Client, token: str, path: str, sent: dict[str, str], fault: str
) -> None:
    assert fault in words(client.post(f"/q/{token}/{path}/", sent))
    assert Reply.objects.count() == 0
