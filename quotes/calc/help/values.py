"""One help sentence, and one word of the trade."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Help:
    """`name` is what stands at the figure; `sentence` what the figure means."""

    name: str
    sentence: str


@dataclass(frozen=True, slots=True)
class TradeWord:
    """A word that whoever is new at the bench has to ask about."""

    word: str
    means: str
