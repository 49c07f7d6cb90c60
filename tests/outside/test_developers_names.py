"""DEVELOPERS.md names modules, tests and its own sections; whoever follows it finds them there."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
TOLD = (ROOT / "DEVELOPERS.md").read_text("utf-8")
NAMED_MODULE = re.compile(r"`([\w./-]+\.py)(?:::\w+)?`")
NAMED_TEST = re.compile(r"`(test_\w+)`")
LINK, HEADING = re.compile(r"\]\(#([^)]+)\)"), re.compile(r"^###? (.+)$", re.M)
OURS = ("catalogue", "quotes", "tests", "templates", ".ci")


def modules() -> list[str]:
    return [f"/{path.relative_to(ROOT)}" for area in OURS for path in (ROOT / area).rglob("*.py")]


def test_every_module_it_names_is_there() -> None:
    ends = modules()
    gone = [name for name in NAMED_MODULE.findall(TOLD) if not any(one.endswith(f"/{name}") for one in ends)]
    assert gone == []


def test_every_test_it_names_is_there() -> None:
    written = "".join(path.read_text("utf-8") for path in (ROOT / "tests").rglob("test_*.py"))
    there = set(re.findall(r"def (test_\w+)", written))
    assert [name for name in NAMED_TEST.findall(TOLD) if name not in there] == []


def test_its_contents_lead_to_every_section() -> None:
    sections = [re.sub(r"[^\w -]", "", head.lower()).replace(" ", "-") for head in HEADING.findall(TOLD)]
    links = LINK.findall(TOLD)
    assert [link for link in links if link not in sections] == []
    chapters = re.findall(r"^## (.+)$", TOLD, re.M)
    assert [head for head in chapters if f"- [{head}](#" not in TOLD] == ["Contents", "Start"]
