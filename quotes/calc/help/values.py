"""One help sentence, and one word of the trade."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.said import say


@dataclass(frozen=True, slots=True)
class Help:
    """`name` is what stands at the figure; `sentence` what the figure means."""

    name: str
    sentence: str

    def said(self) -> Help:
        """The same in the reader's language."""
        return Help(say(self.name), say(self.sentence))


@dataclass(frozen=True, slots=True)
class TradeWord:
    """A word that whoever is new at the bench has to ask about."""

    word: str
    means: str

    def said(self) -> TradeWord:
        """The same in the reader's language."""
        return TradeWord(say(self.word), say(self.means))
