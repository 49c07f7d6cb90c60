"""Units of UN/ECE Recommendation 20, as a structured invoice names them (BT-130)."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

PIECE: Final = "C62"
"""One, piece: what stands for every unit that Recommendation 20 has no word for, such as a cylinder."""

CODES: Final[Mapping[str, str]] = {
    "h": "HUR",
    "hr": "HUR",
    "hour": "HUR",
    "min": "MIN",
    "minute": "MIN",
    "day": "DAY",
    "week": "WEE",
    "month": "MON",
    "year": "ANN",
    "each": PIECE,
    "piece": PIECE,
    "set": "SET",
    "pair": "PR",
    "kit": "KT",
    "job": "E51",
    "l": "LTR",
    "litre": "LTR",
    "liter": "LTR",
    "ml": "MLT",
    "kg": "KGM",
    "g": "GRM",
    "m": "MTR",
    "metre": "MTR",
    "cm": "CMT",
    "mm": "MMT",
    "km": "KMT",
    "mi": "SMI",
    "mile": "SMI",
}


def unit_code(unit: str) -> str:
    """The code of a unit in words, in the singular or the plural; a piece where there is none."""
    word = unit.strip().lower().rstrip(".")
    return CODES.get(word) or CODES.get(word.removesuffix("s")) or PIECE
