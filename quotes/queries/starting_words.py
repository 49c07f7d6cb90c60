"""Texts that every workshop starts from, in the language in hand for as long as nobody has rewritten them."""

from __future__ import annotations

from functools import cache

from django.conf import settings
from django.utils import translation

from catalogue.calc.said import say
from quotes.calc.defaults import TERMS
from quotes.models import BookingTerms, BooksSettings

STARTING = (*TERMS, BookingTerms.STORAGE, BookingTerms.BRING, BooksSettings.PAYMENT_WORDS)


def starting_words(text: str) -> str:
    """A text as the language in hand has it where it is one of those; any other as it was written."""
    shipped = _in_every_language().get(_on_one_line(text))
    return say(shipped) if shipped else text


@cache
def _in_every_language() -> dict[str, str]:
    """What each of them is in every language of the site, and the text that it says."""
    found: dict[str, str] = {}
    for language, _ in settings.LANGUAGES:
        with translation.override(language):
            found |= {_on_one_line(say(text)): text for text in STARTING}
    return found


def _on_one_line(text: str) -> str:
    return " ".join(text.split())
