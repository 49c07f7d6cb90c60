"""The key that searches compare."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.calc.search_key import search_key


@pytest.mark.parametrize(
    ("texts", "key"),
    [
        (("Zoë Ångström",), "zoe angstrom"),
        (("ŘEZNÍČEK",), "reznicek"),
        (("Straße",), "strasse"),
        (("H4-20417",), "h4 20417"),
        (("  two   blanks ",), "two blanks"),
        (("O'Hara, & Co.",), "o hara co"),
        (("name", "000 555"), "name 000 555"),
        (("ﬁne №7",), "fine no7"),
        (("",), ""),
    ],
)
def test_a_text_is_folded(texts: tuple[str, ...], key: str) -> None:
    assert search_key(*texts) == key


@given(st.text())
def test_folding_twice_is_folding_once(text: str) -> None:
    assert search_key(search_key(text)) == search_key(text)


@given(st.text())
def test_case_does_not_matter(text: str) -> None:
    assert search_key(text.upper()) == search_key(text.upper().lower())
