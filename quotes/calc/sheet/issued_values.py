"""An issued revision as it was: the answer under its heading, with the terms and what is honest to say."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal

from quotes.calc.ask.request import Value
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.values import Comparison


class Party(Value):
    """A name and address as printed."""

    name: str
    lines: tuple[str, ...] = ()
    telephone: str = ""
    email: str = ""
    tax_registration: str = ""


class Heading(Value):
    """What stands in the title strip and foot of every sheet of one quote."""

    number: str
    revision: int
    issued_on: date
    valid_until: date
    workshop: Party
    customer: Party
    engine_name: str
    engine_number: str
    class_name: str = ""
    paper: Literal["A4", "Letter"] = "A4"
    language: str = "en"


class RevisionChange(Value):
    """One difference from the last revision, in words."""

    what: str
    before: str
    after: str


class Sheet(Value):
    """An issued revision as it was: reprinting it needs no catalogue and no sums."""

    heading: Heading
    comparison: Comparison
    terms: tuple[str, ...]
    cautions: tuple[str, ...]
    honesty: tuple[str, ...]
    """The five sentences that stand wherever a chance does."""
    changes: tuple[RevisionChange, ...] = ()
    limit_without_asking_pct: Decimal = Decimal(0)

    def for_customer(self) -> Sheet:
        """The same sheet without what the shop paid."""
        options = tuple(
            option.model_copy(
                update={
                    "lines": tuple(_without_cost(line) for line in option.lines),
                    "if_needed": tuple(_without_cost(line) for line in option.if_needed),
                    "offered": {
                        code: risk.model_copy(update={"takes": None}) for code, risk in option.offered.items()
                    },
                }
            )
            for option in self.comparison.options
        )
        return self.model_copy(update={"comparison": self.comparison.model_copy(update={"options": options})})


def _without_cost(line: Line) -> Line:
    return line.model_copy(update={"cost": None, "list_price": None})
