"""Whether the customer must be asked before another article takes the place of the one he agreed to."""

from __future__ import annotations

from decimal import Decimal

from quotes.calc.bench.again.committed import Touches


def asks_for_yes(
    *, price: Decimal | None, new_price: Decimal, grade: str, new_grade: str, life_note: str
) -> tuple[Touches, ...]:
    """What it changes for the customer: the sum, dearer or cheaper, or the quality and with it the life.

    `price` is None where no single accepted price stands against it: then the sum is taken to change. A mere
    other number at the same price, grade and life is for us to choose.

    >>> asks_for_yes(price=Decimal(12), new_price=Decimal(12), grade="stock", new_grade="stock", life_note="")
    ()
    """
    touches: list[Touches] = []
    if price != new_price:
        touches.append("sum")
    if grade != new_grade or life_note.strip():
        touches.append("life")
    return tuple(touches)
