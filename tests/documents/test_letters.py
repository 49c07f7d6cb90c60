"""The table of letter widths agrees with the fonts that ship."""

from __future__ import annotations

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

from quotes.documents.drawing.letters import Face, width

FONTS = Path(__file__).parents[2] / "quotes" / "static" / "quotes" / "fonts"
FILES: list[tuple[Face, str]] = [
    ("B612", "b612-latin-400-normal.woff2"),
    ("B612", "b612-latin-700-normal.woff2"),
    ("Besley", "besley-latin-700-normal.woff2"),
]


@pytest.mark.parametrize(("face", "file"), FILES)
def test_every_letter_is_as_wide_as_in_its_font(face: Face, file: str) -> None:
    font = TTFont(FONTS / file)
    names, advances, units = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
    for letter in "".join(map(chr, range(32, 127))) + "€£":
        assert width(letter, face, 1000) == pytest.approx(
            advances[names[ord(letter)]][0] * 1000 / units, abs=1
        )


def test_a_letter_that_another_font_draws_counts_as_the_widest() -> None:
    assert width("ł", "B612", 10) == 10
