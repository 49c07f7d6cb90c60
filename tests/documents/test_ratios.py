"""The drawing of stops seen for one expected."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from quotes.documents.drawing.ratios import LEAST, MOST, Ratio, draw_ratios

SHORT = Ratio("Mild, sprint", 1.0, 0.05, 20.0, enough=False)
LONG = Ratio("All", 2.0, 1.0, 4.0, enough=True)
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(params=["wide", "narrow"])
def drawn(request: pytest.FixtureRequest) -> ElementTree.Element:
    return ElementTree.fromstring(draw_ratios([SHORT, LONG], request.param))


def test_a_doubling_is_as_far_wherever_it_begins(drawn: ElementTree.Element) -> None:
    """The mark at 2 is as far from 1 as its interval's end at 4 is from it."""
    mark = float(drawn.findall(f"{SVG}circle")[1].attrib["cx"])
    one, four = (float(line.attrib["x1"]) for line in drawn.findall(f"{SVG}line")[-2:])
    assert mark - one == pytest.approx(four - mark, abs=0.11)


def test_an_open_mark_stands_on_too_few(drawn: ElementTree.Element) -> None:
    few, enough = (mark.attrib["fill"] for mark in drawn.findall(f"{SVG}circle"))
    assert few != enough == "#17191c"


def test_what_lies_beyond_the_scale_ends_at_it(drawn: ElementTree.Element) -> None:
    ends = [float(each.attrib["x"]) for each in drawn.findall(f"{SVG}text") if each.text in ("⅛", "8")]
    interval = drawn.findall(f"{SVG}line")[7]
    assert [float(interval.attrib[x]) for x in ("x1", "x2")] == pytest.approx(ends, abs=0.11)
    assert (LEAST, MOST) == (0.125, 8.0)


def test_it_says_its_numbers_aloud_and_has_no_styles(drawn: ElementTree.Element) -> None:
    description = drawn.find(f"{SVG}desc")
    assert description is not None
    assert "All: 2.0, 1.0 to 4.0" in (description.text or "")
    assert not [each for each in drawn.iter() if "style" in each.attrib]
