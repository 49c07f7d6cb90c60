"""A sound value in JSON with a few of its places changed, and bytes that are hardly JSON at all."""

from __future__ import annotations

import copy
import json
from typing import Any

from hypothesis import strategies as st

from tests.fuzz.wild import json_values, words

DEEP = 100_000
NOT_QUITE = (
    b"",
    b"\x00",
    b"\xff\xfe{\x00}\x00",
    b"\xef\xbb\xbf{}",
    b"{",
    b"[]",
    b"null",
    b'"text"',
    b"1e999",
    b"[" * DEEP,
    b'{"engine":' * DEEP,
    b'{"a": 1, "a": 2}',
    b"1" * 5000,
    b'{"on": "\\ud800"}',
)


plausible_numbers = st.integers(0, 9000) | st.sampled_from([0.5, 1, 0.9, 12])
plausible_words = st.sampled_from(
    [
        "12.5",
        "mi",
        "km",
        "h",
        "runs",
        "sprint",
        "endurance",
        "motocross",
        "mild",
        "full",
        "2026-11-25",
        "four600",
    ]
)
"""What may be sound in another place, so that not all is refused at the door."""


@st.composite
def changed(draw: st.DrawFn, sound: list[Any]) -> Any:
    """One of the sound values with up to three changes."""
    value = copy.deepcopy(draw(st.sampled_from(sound)))
    for _ in range(draw(st.sampled_from([0, 1, 1, 1, 1, 2, 2, 3]))):
        value = _change(draw, value)
    return value


def _change(draw: st.DrawFn, value: Any) -> Any:
    """Goes down by chance, and puts in, takes out, doubles or replaces there."""
    if isinstance(value, dict) and value:
        key = draw(st.sampled_from(sorted(value)))
        match draw(st.sampled_from(["down"] * 9 + ["out", "in", "replace"])):
            case "down":
                return {**value, key: _change(draw, value[key])}
            case "out":
                return {name: each for name, each in value.items() if name != key}
            case "in":
                return {**value, draw(words): draw(json_values)}
    elif isinstance(value, list) and value:
        place = draw(st.integers(0, len(value) - 1))
        match draw(st.sampled_from(["down"] * 6 + ["out", "doubled", "replace"])):
            case "down":
                return [*value[:place], _change(draw, value[place]), *value[place + 1 :]]
            case "out":
                return value[:place] + value[place + 1 :]
            case "doubled":
                return [*value, *value[place:]] * draw(st.sampled_from([1, 1, 1, 30]))
    if not isinstance(value, dict | list):
        plausible = plausible_words if isinstance(value, str) else plausible_numbers
        return draw(st.one_of(plausible, plausible, json_values))
    return draw(json_values)


@st.composite
def changed_bytes(draw: st.DrawFn, sound: list[Any]) -> bytes:
    """The same as bytes: as JSON, cut off, with a byte changed, or one of those that are not quite JSON."""
    kind = draw(st.sampled_from(["json"] * 8 + ["cut", "byte", "not quite"]))
    if kind == "not quite":
        return draw(st.sampled_from(NOT_QUITE))
    content = json.dumps(draw(changed(sound))).encode()
    place = draw(st.integers(0, max(0, len(content) - 1)))
    if kind == "cut":
        return content[:place]
    if kind == "byte":
        return content[:place] + draw(st.binary(max_size=3)) + content[place + 1 :]
    return content
