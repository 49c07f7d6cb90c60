"""What the template of a payment's receipt is told: finished words, no sums."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.books.papers import PaymentReceipt, PaymentWay
from quotes.documents.invoice.amounts import in_column, in_text
from quotes.documents.letterhead import PaperHeading, at_lines
from quotes.documents.words import currency_in_words, first_large, long_day

TITLES: dict[PaymentWay, str] = {
    "received": to_say("Receipt"),
    "refund": to_say("Paid back"),
    "reversal": to_say("Taken back"),
}


@dataclass(frozen=True, slots=True)
class SettledRow:
    """A document that the payment settled, and what is open of it after that."""

    document: str
    on: str
    amount: str
    left: str


def receipt_context(receipt: PaymentReceipt) -> dict[str, Any]:
    """Everything that the receipt says."""
    language, title = receipt.language, say(TITLES[receipt.kind])
    dated = long_day(receipt.on, language)
    return {
        "heading": PaperHeading(receipt.workshop, receipt.customer, language),
        "title": f"{title} {receipt.number}: {receipt.customer.name}",
        "foot": f"{receipt.workshop.name} · {title} {receipt.number} · {dated}",
        "at": at_lines(receipt.workshop),
        "made": f"{receipt.on:%Y-%m-%d}T00:00:00Z",
        "name": title,
        "strip": tuple(_strip(receipt, title, dated)),
        "lead": _lead(receipt, dated),
        "more": tuple(_more(receipt)),
        "currency": currency_in_words(receipt.currency, language),
        "rows": tuple(_rows(receipt)),
        "total": in_column(receipt.amount, receipt.decimals, language),
        "on_account": in_column(receipt.on_account, receipt.decimals, language) if receipt.on_account else "",
        "on_account_words": _on_account(receipt),
        "receipt": receipt,
    }


def _strip(receipt: PaymentReceipt, title: str, dated: str) -> Iterator[tuple[str, str]]:
    yield title, receipt.number
    yield say("Dated"), dated
    yield say("By"), first_large(receipt.method)
    if receipt.build or receipt.engine:
        yield say("Build and engine"), ", ".join(filter(None, (receipt.build, receipt.engine)))


def _sum(receipt: PaymentReceipt) -> str:
    return in_text(receipt.amount, receipt.currency, receipt.decimals, receipt.language)


def _lead(receipt: PaymentReceipt, dated: str) -> str:
    told = {
        "workshop": receipt.workshop.name,
        "sum": _sum(receipt),
        "who": receipt.customer.name,
        "day": dated,
        "how": _how(receipt.method),
    }
    if receipt.kind == "received":
        return say("{workshop} received {sum} from {who} on {day}, {how}.", **told)
    if receipt.kind == "refund":
        return say("{workshop} paid {sum} back to {who} on {day}, {how}.", **told)
    if not receipt.reverses:
        return say("On {day} the payment of {sum} from {who} is taken back: it did not hold.", **told)
    return say(
        "On {day} payment {number} of {sum} from {who} is taken back: it did not hold.",
        number=receipt.reverses,
        **told,
    )


def _on_account(receipt: PaymentReceipt) -> str:
    if receipt.deposit:
        return say("Held for the build")
    if receipt.kind == "reversal":
        return say("Stood on account")
    if receipt.kind == "received":
        return say("On account, for later invoices")
    return say("Out of what stood on account")


def _how(method: str) -> str:
    return say("in cash") if method == say("cash") else say("by {method}", method=method)


_DEPOSIT = to_say(
    "It is a deposit for the build, held until the build is invoiced and then taken off what is due. No tax "
    "has been charged on it."
)
_DEPOSIT_OF_QUOTE = to_say(
    "It is a deposit for the build of quote {quote}, held until the build is invoiced and then taken off "
    "what is due. No tax has been charged on it."
)


def _more(receipt: PaymentReceipt) -> Iterator[str]:
    """What a reader asks next: what the money is for, and what was said with it."""
    if receipt.deposit and receipt.kind == "received":
        yield say(_DEPOSIT_OF_QUOTE if receipt.build else _DEPOSIT, quote=receipt.build)
    if receipt.kind == "reversal" and receipt.settled:
        yield say("What it had settled is open again.")
    if receipt.reference:
        yield say("Said with it: {words}.", words=receipt.reference)
    if receipt.note:
        yield receipt.note


def _rows(receipt: PaymentReceipt) -> Iterator[SettledRow]:
    for each in receipt.settled:
        yield SettledRow(
            document=f"{first_large(each.kind)} {each.number}",
            on=long_day(each.on, receipt.language),
            amount=in_column(each.amount, receipt.decimals, receipt.language),
            left=in_column(each.left, receipt.decimals, receipt.language)
            if each.left != ZERO
            else say("nothing"),
        )
