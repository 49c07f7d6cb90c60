"""Why an action on invoices and the books was refused, each with what a person needs to know to go on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from quotes.actions.refused import Refused
from quotes.calc.ask.fault import Fault


class DraftFaults(Refused):
    """The draft can't be kept or issued as it is: field, value and what is allowed, for each fault."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__(" ".join(f"{fault.field}: {fault.value}: {fault.allowed}" for fault in self.faults))


class DraftClosed(Refused):
    """The draft was issued or dropped: there is nothing to change any more."""

    def __init__(self, number: str = "") -> None:
        self.number = number
        super().__init__(
            f"This was issued as {number}, which stands as it is. A correction is a credit note and a new "
            "document."
            if number
            else "This draft was dropped. Start a new one."
        )


class NothingToInvoice(Refused):
    """All that was accepted, or all of the deposit, has been asked for already."""

    def __init__(self, said: str) -> None:
        super().__init__(said)


class DepositByReceipt(Refused):
    """The workshop takes deposits by receipt, so there is no deposit invoice."""

    def __init__(self) -> None:
        super().__init__(
            "This workshop takes deposits by receipt, without tax: take a payment for the build and mark it "
            "as a deposit. The invoice takes it off."
        )


class MissingAcceptance(Refused):
    """More is asked for than was accepted and the signed limit allows. `lines`: what no yes covers."""

    def __init__(
        self, lines: Sequence[tuple[str, Decimal]], asked: Decimal, up_to: Decimal, currency: str
    ) -> None:
        self.lines, self.asked, self.up_to, self.over = tuple(lines), asked, up_to, asked - up_to
        named = "; ".join(f"{what} {amount:f}" for what, amount in self.lines)
        super().__init__(
            f"{asked:f} {currency} would be asked for where {up_to:f} is accepted, the signed limit "
            f"included: {self.over:f} too much. No acceptance covers: {named}. Offer it as extra work, or "
            "let the owner consent in writing."
        )


class ConsentIsTheOwners(Refused):
    """Somebody else than the owner consented to more than was accepted."""

    def __init__(self) -> None:
        super().__init__("Only the owner may consent to asking for more than was accepted.")


class NotCreditable(Refused):
    """There is nothing to credit, or no way to; the text says what to do instead."""

    def __init__(self, said: str) -> None:
        super().__init__(said)


class MonthClosed(Refused):
    """The month of that day is closed: nothing more is dated into it."""

    def __init__(self, day: date) -> None:
        self.day = day
        super().__init__(
            f"{day.day} {day:%B %Y} is in a month that is closed. Take a later day, or let the owner open "
            "the month again."
        )


class EInvoiceRefused(Refused):
    """PDF or XML could not be made, so nothing was issued and no number was used."""

    def __init__(self, rule: str, field: str, text: str) -> None:
        self.rule, self.field, self.text = rule, field, text
        super().__init__(f"Nothing was issued. {field}: {text} ({rule})")


class AlreadyAnswered(Refused):
    """Extra work that has its answer keeps it."""

    def __init__(self, number: str, state: str, name: str) -> None:
        super().__init__(
            f"{name} has {state} {number} already, and that stands. What is asked anew is extra work of its "
            "own."
        )


class HoursInvoiced(Refused):
    """Hours that an invoice rests on are not corrected any more."""

    def __init__(self, number: str) -> None:
        self.number = number
        super().__init__(
            f"These hours are on {number}. Credit it first; then they may be corrected and invoiced again."
        )
