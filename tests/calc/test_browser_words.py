"""What a browser says of itself, in words."""

from __future__ import annotations

import pytest

from quotes.calc.browser_words import browser_in_words

WEBKIT = "AppleWebKit/537.36 (KHTML, like Gecko)"


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (
            "Mozilla/5.0 (Windows NT 10.0; Win64; x64; rv:140.0) Gecko/20100101 Firefox/140.0",
            "Firefox on Windows",
        ),
        (f"Mozilla/5.0 (X11; Linux x86_64) {WEBKIT} Chrome/140.0 Safari/537.36", "Chrome on Linux"),
        (f"Mozilla/5.0 (Windows NT 10.0) {WEBKIT} Chrome/140.0 Safari/537.36 Edg/140.0", "Edge on Windows"),
        (f"Mozilla/5.0 (Linux; Android 15) {WEBKIT} Chrome/140.0 Mobile Safari/537.36", "Chrome on Android"),
        (
            "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) Version/18.0 Safari/604.1",
            "Safari on an iPhone",
        ),
        ("Mozilla/5.0 (X11; Linux x86_64)", "A browser on Linux"),
        ("Firefox/140.0", "Firefox"),
        ("curl/8.0", "A browser we don't know"),
        ("", "A browser we don't know"),
    ],
)
def test_browser_and_system_are_named(said: str, words: str) -> None:
    assert browser_in_words(said) == words
