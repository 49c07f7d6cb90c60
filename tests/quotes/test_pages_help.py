"""The page on which every figure is explained, and the question mark beside one."""

from __future__ import annotations

import pytest
from django.template import Context, Template
from django.test import Client
from django.urls import reverse
from django.utils.html import escape

from quotes.calc.help.registry import HELP
from quotes.calc.help.trade import TRADE_WORDS
from tests.cast import builder


def test_the_page_says_what_every_figure_means(db: None, client: Client) -> None:
    client.force_login(builder())
    said = client.get(reverse("help")).content.decode()

    sentences = [one.sentence for one in HELP.values()] + [one.means for one in TRADE_WORDS]
    assert [sentence for sentence in sentences if escape(sentence) not in said] == []


def test_every_page_leads_there(db: None, client: Client) -> None:
    client.force_login(builder())

    assert f'href="{reverse("help")}"' in client.get(reverse("home")).content.decode()


def test_a_question_mark_says_its_name_to_a_screen_reader() -> None:
    mark = Template('{% load help %}{% help "net" %}').render(Context())

    assert '<span class="hidden">What “Before tax” means</span>' in mark
    assert HELP["net"].sentence in mark


def test_a_key_that_nobody_wrote_is_refused() -> None:
    with pytest.raises(KeyError):
        Template('{% load help %}{% help "nonsense" %}').render(Context())
