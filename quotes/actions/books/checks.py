"""What a draft must keep to, and what a document must before it is issued."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal

from django.contrib.auth.models import User

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.books.credit_checks import creditable
from quotes.actions.books.refused import (
    ConsentIsTheOwners,
    DraftFaults,
    MissingAcceptance,
    NothingToInvoice,
)
from quotes.calc.ask.fault import Fault
from quotes.calc.invoice.allowed import ACCEPTED_KEYS, asked_of_build, beyond_the_yes
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.values import InvoiceLine, InvoiceSheet
from quotes.models import InvoiceDraft, InvoiceKind
from quotes.queries.books.account import BuildAccount, DepositOf
from quotes.queries.books.build import build_account
from quotes.queries.books.day import codes_of
from quotes.queries.books.deposits import strip_down_deposits
from quotes.queries.books.sheets import content_of
from quotes.queries.rights import may

OF_A_BUILD = (*ACCEPTED_KEYS, "clock:", "deposit:")
"""How keys of lines begin that only an invoice of a build may hold."""


def refuse_line_faults(lines: Sequence[DraftLine], on: date) -> None:
    """DraftFaults for lines that can't be priced, whatever they are for."""
    codes = codes_of(on)
    faults = []
    for number, line in enumerate(lines, 1):
        if line.taxed is None and line.tax_code not in codes:
            known = ", ".join(sorted(codes))
            faults.append(
                Fault(f"lines.{number}.tax_code", line.tax_code, say("one of: {known}", known=known))
            )
        if line.quantity == ZERO:
            faults.append(
                Fault(f"lines.{number}.quantity", "0", say("any other quantity; or take the line out"))
            )
        if line.own_part and line.kind != "part":
            said = say("only a part can be the customer's own")
            faults.append(Fault(f"lines.{number}.own_part", line.kind.replace("_", " "), said))
    if faults:
        raise DraftFaults(faults)


def refuse_unfit(row: InvoiceDraft, sheet: InvoiceSheet, by: User, consent: str) -> str:
    """Refuse what may not be issued; gives the consent that the document needs, or an empty text.

    Raises NothingToInvoice, DraftFaults, NotCreditable, MissingAcceptance or ConsentIsTheOwners.
    """
    if not sheet.lines:
        raise NothingToInvoice(say("There is no line on this document: give it at least one."))
    if row.original is not None:
        creditable(row.original)
        return ""
    refuse_line_faults(content_of(row).lines, sheet.supplied_on)
    if row.build is None:
        faults = (*_faults_of_sale(sheet), *_receipts_of_sale(row, sheet))
    else:
        account = build_account(row.build, sheet.issued_on, content_of(row).labour_by)
        faults = tuple(_faults_of_build(row, sheet, account))
        if not faults:
            return _covered(sheet, account, by, consent)
    if faults:
        raise DraftFaults(faults)
    return ""


def _faults_of_sale(sheet: InvoiceSheet) -> Iterator[Fault]:
    for line in sheet.lines:
        if line.kind == "deposit" or line.key.startswith(OF_A_BUILD):
            yield Fault(
                f"lines.{line.number}", line.description, say("nothing of a build, for this has none")
            )


def _receipts_of_sale(row: InvoiceDraft, sheet: InvoiceSheet) -> Iterator[Fault]:
    wanted = content_of(row).prepayments
    held = strip_down_deposits(row.customer_id) if wanted else {}
    for number, amount in wanted.items():
        left = held.get(number, ZERO)
        if amount > left:
            said = f"at most {left:f}: that is left of {sheet.buyer.name}'s deposit for the strip-down"
            yield Fault(f"prepayments.{number}", f"{amount:f}", said)


def _faults_of_build(row: InvoiceDraft, sheet: InvoiceSheet, account: BuildAccount) -> Iterator[Fault]:
    if row.kind == InvoiceKind.DEPOSIT:
        for line in sheet.lines:
            if line.kind != "deposit" or line.key or line.net <= ZERO:
                said = say("a sum above 0 of kind deposit: a deposit invoice asks for nothing else")
                yield Fault(f"lines.{line.number}", line.description, said)
        return
    yield from _asked_twice(sheet.lines, account)
    yield from _deposits(row, sheet, account)
    yield from _receipts(row, sheet, account)


def _asked_twice(lines: Iterable[InvoiceLine], account: BuildAccount) -> Iterator[Fault]:
    """Lines of which an earlier document has asked for some, and this one for more than is left."""
    accepted = {one.line.key: one for one in account.lines}
    seen: set[str] = set()
    for line in lines:
        if not line.key or line.kind == "deposit":
            continue
        if line.key in seen:
            said = say("once: another line of this document asks for the same")
            yield Fault(f"lines.{line.number}.key", line.description, said)
        seen.add(line.key)
        done = account.asked.quantities.get(line.key, ZERO)
        one = accepted.get(line.key)
        left = one.left.quantity if one and one.left else ZERO
        if done and abs(line.quantity) > abs(left):
            said = say(
                "at most {left}: {done} {unit} of {description} was asked for already",
                left=f"{left:f}",
                done=f"{done:f}",
                unit=line.unit,
                description=line.description,
            )
            yield Fault(f"lines.{line.number}.quantity", f"{line.quantity:f}", said)


def _deposits(row: InvoiceDraft, sheet: InvoiceSheet, account: BuildAccount) -> Iterator[Fault]:
    held = {line.key: (line.unit_price, one) for one in account.deposits for line in one.lines}
    for line in sheet.lines:
        if line.kind != "deposit":
            continue
        left, deposit = held.get(line.key, (ZERO, None))
        if line.net >= ZERO or -line.net > left:
            said = say("a deposit taken off, at most {left} before tax: that is left of it", left=f"{left:f}")
            yield Fault(f"lines.{line.number}", f"{line.description} {line.net:f}", said)
        elif deposit and deposit.customer_id != row.customer_id:
            said = say(
                "deposits of {name}: this one is {customer}'s",
                name=sheet.buyer.name,
                customer=deposit.customer,
            )
            yield Fault(f"lines.{line.number}", line.description, said)


def _receipts(row: InvoiceDraft, sheet: InvoiceSheet, account: BuildAccount) -> Iterator[Fault]:
    held: dict[str, DepositOf] = {
        one.number: one
        for one in account.deposits
        if one.by == "receipt" and one.customer_id == row.customer_id
    }
    for number, amount in content_of(row).prepayments.items():
        left = held[number].left if number in held else ZERO
        if amount > left:
            said = say(
                "at most {left}: that is left of {name}'s deposit for this build",
                left=f"{left:f}",
                name=sheet.buyer.name,
            )
            yield Fault(f"prepayments.{number}", f"{amount:f}", said)


def _covered(sheet: InvoiceSheet, account: BuildAccount, by: User, consent: str) -> str:
    """The consent where the document goes beyond the yes and the owner has given it; '' where it does not."""
    if sheet.kind == "deposit_invoice":
        beyond = _beyond_by_deposit(sheet, account)
        asked = account.asked_gross + account.deposit_left + sheet.sums.gross
    else:
        found = beyond_the_yes(
            sheet.lines,
            sheet.sums,
            account.agreed,
            account.asked_gross,
            accepted=[one.left for one in account.lines if one.left],
            decimals=sheet.decimals,
        )
        beyond = [(one.what, one.gross) for one in found]
        asked = account.asked_gross + asked_of_build(sheet.lines, sheet.sums, sheet.decimals)
    if not beyond:
        return ""
    if not consent:
        raise MissingAcceptance(beyond, asked, account.up_to, sheet.currency)
    if not may(by, "invoice more than the yes"):
        raise ConsentIsTheOwners
    return consent


def _beyond_by_deposit(sheet: InvoiceSheet, account: BuildAccount) -> list[tuple[str, Decimal]]:
    over = account.asked_gross + account.deposit_left + sheet.sums.gross - account.up_to
    return [(say("Deposits: more than all that was accepted"), over)] if over > ZERO else []
