"""What is refused about parts, each with what is wrong and how to mend it."""

from __future__ import annotations

from collections.abc import Sequence

from quotes.actions.refused import Refused


class NotMeasured(Refused):
    """A part whose size is chosen by a reading that was not taken yet."""

    def __init__(self, sentences: Sequence[str]) -> None:
        super().__init__(" ".join(sentences))


class NothingToOrder(Refused):
    """Everything that was ticked is ordered already, or is no longer wanted."""

    def __init__(self) -> None:
        super().__init__("Nothing of this is still to be ordered: look at the list of orders.")


class TwoSuppliers(Refused):
    """An order goes to one supplier."""

    def __init__(self, names: Sequence[str]) -> None:
        super().__init__(f"An order goes to one supplier, and this is sold by {' and '.join(names)}.")


class WaitsForYes(Refused):
    """A substitute that the customer has not agreed to."""

    def __init__(self, number: str, state: str) -> None:
        super().__init__(
            f"{number} is {state}: this changes the price, quality or life that was agreed, so it is "
            "ordered only when the customer has said yes to it."
        )


class ReplacedAlready(Refused):
    """A substitute that was ordered, or dropped."""

    def __init__(self, words: str) -> None:
        super().__init__(f"{words} was ordered or dropped already.")


class CoreNotThere(Refused):
    """A core that can't be sent or settled from where it stands."""

    def __init__(self, description: str, state: str) -> None:
        super().__init__(
            f"{description} is {state}: only what is with us is sent, only what was sent settled."
        )
