"""The unit of a part as one engine type has it, where a price list writes several in one line.

`single: each bearing; others: shell pair` and `each (single: complete with rod)` are the two ways of it.
"""

from __future__ import annotations

import re

_BOTH = re.compile(r"\s*single:\s*(?P<single>[^;]+);\s*others:\s*(?P<others>[^;]+)")
_BESIDE = re.compile(r"(?P<others>[^()]+?)\s*\(single:\s*(?P<more>[^()]+)\)")


def for_cylinders(unit: str, cylinders: int) -> str:
    """The words for a single or for the others; a unit that tells them apart in no known way as it stands."""
    if both := _BOTH.fullmatch(unit):
        return both["single" if cylinders == 1 else "others"].strip()
    if beside := _BESIDE.fullmatch(unit):
        return f"{beside['others']}, {beside['more'].strip()}" if cylinders == 1 else beside["others"]
    return unit
