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
    """The month of that day is closed: nothing more is dated into it. `first_free`: the next free day."""

    def __init__(self, day: date, first_free: date) -> None:
        self.day, self.first_free = day, first_free
        super().__init__(
            f"{day.day} {day:%B %Y} is in a month that is closed. The first free day is {first_free.day} "
            f"{first_free:%B %Y}; or let the owner open the month again."
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


class CalledOffAlready(Refused):
    """The build was called off: nothing more is done, ordered or agreed, and it is not called off twice."""

    def __init__(self, number: str, said_by: str, on: date) -> None:
        super().__init__(
            f"{said_by} called {number} off on {on.day} {on:%B %Y}, and that stands: what was done until "
            "then is invoiced, and no more is done."
        )


class NotToBeCalledOff(Refused):
    """A build that is done or invoiced to the end; the text says what to do instead."""

    def __init__(self, said: str) -> None:
        super().__init__(said)


class KeyTaken(Refused):
    """The form was used already, and for something else than what it now says."""

    def __init__(self, number: str) -> None:
        self.number = number
        super().__init__(
            f"This form has been kept already, as {number}, with other figures. Open a new form for another."
        )


class NotAllocatable(Refused):
    """One item can't settle another; the text says why, with the sums."""

    def __init__(self, said: str) -> None:
        super().__init__(said)


class NothingToPayBack(Refused):
    """More would be paid back than is there."""

    def __init__(self, asked: Decimal, most: Decimal, of: str) -> None:
        self.asked, self.most = asked, most
        super().__init__(f"{asked:f} is asked back where {of} holds {most:f}: at most that.")


class NotReversible(Refused):
    """This can't be taken back; the text says what to do instead."""

    def __init__(self, said: str) -> None:
        super().__init__(said)


class BillEnteredAlready(Refused):
    """The supplier's bill of that number is in the books."""

    def __init__(self, supplier: str, supplier_number: str, number: str) -> None:
        self.number = number
        super().__init__(f"{supplier_number} of {supplier} is in the books already, as {number}.")


class BillReversed(Refused):
    """A bill that was taken back is not paid."""

    def __init__(self, number: str, by: str) -> None:
        super().__init__(f"{number} was taken back by {by}: there is nothing to pay.")


class OpeningOutOfBalance(Refused):
    """The balances that the books would begin with do not balance. `difference`: debits less credits."""

    def __init__(self, debits: Decimal, credits: Decimal) -> None:
        self.debits, self.credits, self.difference = debits, credits, debits - credits
        super().__init__(
            f"Debits come to {debits:f} and credits to {credits:f}: they differ by "
            f"{abs(self.difference):f}. Nothing was kept."
        )


class OpeningEntered(Refused):
    """The books have their opening balances of that day."""

    def __init__(self, day: date) -> None:
        super().__init__(f"The opening balances of {day.day} {day:%B %Y} are in the books already.")


class MonthNotOver(Refused):
    """A month is closed only after its last day."""

    def __init__(self, month: date) -> None:
        super().__init__(f"{month:%B %Y} is not over yet: it can be closed after its last day.")
