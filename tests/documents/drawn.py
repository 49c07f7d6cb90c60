"""What tests ask of any drawing: where its text stands, and that it is clean, whole and legible."""

from __future__ import annotations

import itertools
import re
from xml.etree import ElementTree

from quotes.documents.drawing.boxes import Box
from quotes.documents.drawing.letters import width

SVG = "{http://www.w3.org/2000/svg}"
SMALLEST = {"narrow": 288.0, "wide": 514.0}
"""Pixels in which a shape is drawn at its smallest: a 320 px phone, and 136 mm of paper."""


def parsed(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)


def texts(root: ElementTree.Element) -> list[tuple[str, Box]]:
    """Every piece of text with the box that it fills, by the widths of its letters."""
    return [(text.text or "", _text_box(text)) for text in root.iter(f"{SVG}text")]


def words_of(svg: str) -> str:
    """All that is written on it, as one line."""
    return " ".join(words for words, _ in texts(parsed(svg)))


def _text_box(text: ElementTree.Element) -> Box:
    size, x, y = (float(text.attrib[key]) for key in ("font-size", "x", "y"))
    long = width(text.text or "", "Besley" if "Besley" in text.attrib["font-family"] else "B612", size)
    left = x - {"start": 0.0, "middle": long / 2, "end": long}[text.attrib["text-anchor"]]
    return Box(left, y - size * 0.75, left + long, y + size * 0.05)


def assert_sound(svg: str) -> None:
    """Attributes only, no text on another, all in the view box, letters of 11 px, title and words."""
    assert not re.search(r"\sstyle=|<style|<script|\son\w+=|href|url\(|nan|inf", svg)
    root = parsed(svg)
    assert root.findtext(f"{SVG}title")
    assert root.findtext(f"{SVG}desc")
    assert root.attrib["role"] == "img"
    frame = Box(0, 0, float(root.attrib["width"]), float(root.attrib["height"]))
    assert root.attrib["viewBox"] == f"0 0 {root.attrib['width']} {root.attrib['height']}"
    written = texts(root)
    for (one, box), (other, other_box) in itertools.combinations(written, 2):
        assert not box.touches(other_box), f"{one!r} touches {other!r}"
    for words, box in written:
        assert box.within(frame), f"{words!r} leaves the drawing"
    for mark in _marks(root):
        assert mark.within(Box(-1, -1, frame.right + 1, frame.bottom + 1)), f"{mark} leaves the drawing"
    shape = "narrow" if frame.right < 400 else "wide"
    sizes = [float(text.attrib["font-size"]) for text in root.iter(f"{SVG}text")]
    assert min(sizes) * SMALLEST[shape] / frame.right >= 11


def _marks(root: ElementTree.Element) -> list[Box]:
    found = []
    for each in root.iter(f"{SVG}rect"):
        x, y, wide, high = (float(each.attrib[key]) for key in ("x", "y", "width", "height"))
        found.append(Box(x, y, x + wide, y + high))
    for each in root.iter(f"{SVG}line"):
        x1, y1, x2, y2 = (float(each.attrib[key]) for key in ("x1", "y1", "x2", "y2"))
        found.append(Box(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)))
    for each in root.iter(f"{SVG}circle"):
        found.append(Box.around(*(float(each.attrib[key]) for key in ("cx", "cy", "r"))))
    return found
