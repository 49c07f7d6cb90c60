"""Twenty leaves: solid, ruled and open as the band says, and never all solid."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from quotes.calc.sheet.chance_values import Chance
from quotes.documents.drawing.leaves import twenty_leaves

SVG = "{http://www.w3.org/2000/svg}"


def chance(value: float, low: float, high: float) -> Chance:
    return Chance(
        value=value,
        low=low,
        high=high,
        target=None,
        target_met=True,
        events=4,
        first_event=value,
        last_event=value,
    )


@pytest.mark.parametrize(
    ("estimate", "solid", "ruled", "open_"),
    [
        ((0.90, 0.86, 0.93), 17, 2, 1),
        ((0.76, 0.59, 0.86), 12, 5, 3),
        ((0.999, 0.99, 0.9999), 19, 1, 0),
        ((0.2, 0.01, 0.3), 0, 6, 14),
    ],
)
def test_leaves_are_solid_ruled_and_open_as_the_band_says(
    estimate: tuple[float, float, float], solid: int, ruled: int, open_: int
) -> None:
    root = ElementTree.fromstring(twenty_leaves(chance(*estimate)))
    leaves = list(root.iter(f"{SVG}rect"))
    rules = list(root.iter(f"{SVG}line"))
    assert len(leaves) == 20
    assert sum(leaf.attrib["fill"] == "#17191c" for leaf in leaves) == solid
    assert len(rules) == 6 * ruled
    assert 20 - solid - ruled == open_


def test_leaves_say_their_numbers_aloud() -> None:
    root = ElementTree.fromstring(twenty_leaves(chance(0.90, 0.86, 0.93), "Refresh"))
    assert root.attrib["aria-label"] == "Refresh: about 18 in 20, likely 17 to 19"
    assert root.attrib["role"] == "img"
