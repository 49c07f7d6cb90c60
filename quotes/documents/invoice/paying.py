"""What is to be paid, to whom, and what happens when it is late: the box under the sums."""

from __future__ import annotations

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.calc.invoice.values import Account, InvoiceSheet
from quotes.documents.invoice.amounts import in_groups, rate_figure, said
from quotes.documents.words import NO_BREAK


def due_label(sheet: InvoiceSheet) -> str:
    """What the last of the sums is."""
    if sheet.sums.due == ZERO:
        return say("Nothing to pay")
    if (sheet.sums.due > ZERO) == (sheet.kind != "credit_note"):
        return say("Still to pay")
    return say("Credited") if sheet.kind == "credit_note" else say("To be paid back")


def pay(sheet: InvoiceSheet) -> tuple[tuple[str, bool], ...]:
    """The boxed line, as pieces of text and whether they are bold."""
    due = said(abs(sheet.sums.due), sheet)
    label = due_label(sheet)
    if sheet.sums.due == ZERO:
        return ((f"{label}.", True),)
    if label != say("Still to pay"):
        words = f"{sheet.payment_words}." if sheet.kind == "credit_note" and sheet.payment_words else ""
        return (f"{label}: {due}.", True), (words, False)
    account, pieces = sheet.account, [(say("Pay {sum}", sum=due), True)]
    if account.iban:
        pieces += [(say("to"), True), (f"{_account(account)},", False)]
    pieces += [(say("and say"), True), (f"{sheet.remittance}.", False)]
    if sheet.payment_words:
        pieces.append((f"{sheet.payment_words}.", False))
    return tuple(pieces)


def _account(account: Account) -> str:
    """In groups of four, as it is typed; the groups of one number stay on one line."""
    iban = in_groups(account.iban).replace(" ", NO_BREAK)
    bic = f"BIC{NO_BREAK}{account.bic}" if account.bic else ""
    return ", ".join(filter(None, (iban, account.name, bic)))


def late_words(sheet: InvoiceSheet) -> str:
    """The interest that the terms ask for, where there is anything to be late with."""
    late = sheet.late
    if not late.rate_pct_a_year or sheet.kind == "credit_note" or sheet.sums.due <= ZERO:
        return ""
    return say(
        "From {days} days after the day of payment the terms ask for interest of {rate} a year.",
        days=late.after_days,
        rate=f"{rate_figure(late.rate_pct_a_year, sheet.language)} %",
    )
