"""The published cases: `published_cases.json` read once."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

FILE = Path(__file__).with_name("published_cases.json")
CASES: tuple[dict[str, Any], ...] = tuple(json.loads(FILE.read_text(encoding="utf-8"))["cases"])
every_case = pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])


def catching(method: str) -> list[dict[str, Any]]:
    """The cases that a wrong method fails on, as those who collected them say."""
    return [case for case in CASES if method in case["wrong_methods_this_case_catches"]]
