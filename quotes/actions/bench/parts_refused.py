"""What is refused about parts, each with what is wrong and how to mend it."""

from __future__ import annotations

from collections.abc import Sequence

from catalogue.calc.said import say
from quotes.actions.refused import Refused


class NotMeasured(Refused):
    """A part whose size is chosen by a reading that was not taken yet."""

    def __init__(self, sentences: Sequence[str]) -> None:
        super().__init__(" ".join(sentences))


class NothingToOrder(Refused):
    """Everything that was ticked is ordered already, or is no longer wanted."""

    def __init__(self) -> None:
        super().__init__(say("Nothing of this is still to be ordered: look at the list of orders."))


class TwoSuppliers(Refused):
    """An order goes to one supplier."""

    def __init__(self, names: Sequence[str]) -> None:
        super().__init__(
            say("An order goes to one supplier, and this is sold by {names}.", names=say(" and ").join(names))
        )


class WaitsForYes(Refused):
    """A substitute that the customer has not agreed to."""

    def __init__(self, number: str, state: str) -> None:
        super().__init__(
            say(
                "{number} is {state}: this changes the price, quality or life that was agreed, so it is "
                "ordered only when the customer has said yes to it.",
                number=number,
                state=state,
            )
        )


class ReplacedAlready(Refused):
    """A substitute that was ordered, or dropped."""

    def __init__(self, words: str) -> None:
        super().__init__(say("{words} was ordered or dropped already.", words=words))


class CoreNotThere(Refused):
    """A core that can't be sent or settled from where it stands."""

    def __init__(self, description: str, state: str) -> None:
        super().__init__(
            say(
                "{description} is {state}: only what is with us is sent, only what was sent settled.",
                description=description,
                state=state,
            )
        )
