"""Why an action on invoices and the books was refused, each with what a person needs to know to go on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from catalogue.calc.said import say
from quotes.actions.refused import Refused
from quotes.calc.ask.fault import Fault
from quotes.calc.said_days import said_day


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
            say(
                "This was issued as {number}, which stands as it is. A correction is a credit note "
                "and a new document.",
                number=number,
            )
            if number
            else say("This draft was dropped. Start a new one.")
        )


class NothingToInvoice(Refused):
    """All that was accepted, or all of the deposit, has been asked for already."""

    def __init__(self, said: str) -> None:
        super().__init__(said)


class DepositByReceipt(Refused):
    """The workshop takes deposits by receipt, so there is no deposit invoice."""

    def __init__(self) -> None:
        super().__init__(
            say(
                "This workshop takes deposits by receipt, without tax: take a payment for the build "
                "and mark it as a deposit. The invoice takes it off."
            )
        )


class MissingAcceptance(Refused):
    """More is asked for than was accepted and the signed limit allows. `lines`: what no yes covers."""

    def __init__(
        self, lines: Sequence[tuple[str, Decimal]], asked: Decimal, up_to: Decimal, currency: str
    ) -> None:
        self.lines, self.asked, self.up_to, self.over = tuple(lines), asked, up_to, asked - up_to
        named = "; ".join(f"{what} {amount:f}" for what, amount in self.lines)
        super().__init__(
            say(
                "{asked} {currency} would be asked for where {up_to} is accepted, the signed limit "
                "included: {over} too much. No acceptance covers: {named}. Offer it as extra work, "
                "or let the owner consent in writing.",
                asked=f"{asked:f}",
                currency=currency,
                up_to=f"{up_to:f}",
                over=f"{self.over:f}",
                named=named,
            )
        )


class ConsentIsTheOwners(Refused):
    """Somebody else than the owner consented to more than was accepted."""

    def __init__(self) -> None:
        super().__init__(say("Only the owner may consent to asking for more than was accepted."))


class NotCreditable(Refused):
    """There is nothing to credit, or no way to; the text says what to do instead."""

    def __init__(self, said: str) -> None:
        super().__init__(said)


class EInvoiceRefused(Refused):
    """PDF or XML could not be made, so nothing was issued and no number was used."""

    def __init__(self, rule: str, field: str, text: str) -> None:
        self.rule, self.field, self.text = rule, field, text
        super().__init__(
            say("Nothing was issued. {field}: {text} ({rule})", field=field, text=text, rule=rule)
        )


class AlreadyAnswered(Refused):
    """Extra work that has its answer keeps it."""

    def __init__(self, number: str, state: str, name: str) -> None:
        super().__init__(
            say(
                "{name} has {state} {number} already, and that stands. What is asked anew is extra "
                "work of its own.",
                name=name,
                state=state,
                number=number,
            )
        )


class HoursInvoiced(Refused):
    """Hours that an invoice rests on are not corrected any more."""

    def __init__(self, number: str) -> None:
        self.number = number
        super().__init__(
            say(
                "These hours are on {number}. Credit it first; then they may be corrected and "
                "invoiced again.",
                number=number,
            )
        )


class CalledOffAlready(Refused):
    """The build was called off: nothing more is done, ordered or agreed, and it is not called off twice."""

    def __init__(self, number: str, said_by: str, on: date) -> None:
        super().__init__(
            say(
                "{said_by} called {number} off on {day}, and that stands: what was done until then "
                "is invoiced, and no more is done.",
                said_by=said_by,
                number=number,
                day=said_day(on),
            )
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
            say(
                "This form has been kept already, as {number}, with other figures. Open a new form "
                "for another.",
                number=number,
            )
        )


class NotAllocatable(Refused):
    """One item can't settle another; the text says why, with the sums."""

    def __init__(self, said: str) -> None:
        super().__init__(said)


class NothingToPayBack(Refused):
    """More would be paid back than is there."""

    def __init__(self, asked: Decimal, most: Decimal, of: str) -> None:
        self.asked, self.most = asked, most
        super().__init__(
            say(
                "{asked} is asked back where {of} holds {most}: at most that.",
                asked=f"{asked:f}",
                of=of,
                most=f"{most:f}",
            )
        )


class NotReversible(Refused):
    """This can't be taken back; the text says what to do instead."""

    def __init__(self, said: str) -> None:
        super().__init__(said)


class BillEnteredAlready(Refused):
    """The supplier's bill of that number is in the books."""

    def __init__(self, supplier: str, supplier_number: str, number: str) -> None:
        self.number = number
        super().__init__(
            say(
                "{supplier_number} of {supplier} is in the books already, as {number}.",
                supplier_number=supplier_number,
                supplier=supplier,
                number=number,
            )
        )


class BillReversed(Refused):
    """A bill that was taken back is not paid."""

    def __init__(self, number: str, by: str) -> None:
        super().__init__(
            say("{number} was taken back by {by}: there is nothing to pay.", number=number, by=by)
        )
