"""What the template of a payment's receipt is told: finished words, no sums."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from catalogue.calc.money import ZERO
from quotes.calc.books.papers import PaymentReceipt, PaymentWay
from quotes.documents.booking import PaperHeading, at_lines
from quotes.documents.invoice.amounts import in_column, in_text
from quotes.documents.words import currency_in_words, first_large, long_day

TITLES: dict[PaymentWay, str] = {
    "received": "Receipt",
    "refund": "Paid back",
    "reversal": "Taken back",
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
    language, title = receipt.language, TITLES[receipt.kind]
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
    yield "Dated", dated
    yield "By", first_large(receipt.method)
    if receipt.build or receipt.engine:
        yield "Build and engine", ", ".join(filter(None, (receipt.build, receipt.engine)))


def _sum(receipt: PaymentReceipt) -> str:
    return in_text(receipt.amount, receipt.currency, receipt.decimals, receipt.language)


def _lead(receipt: PaymentReceipt, dated: str) -> str:
    who, how = receipt.customer.name, _how(receipt.method)
    if receipt.kind == "received":
        return f"{receipt.workshop.name} received {_sum(receipt)} from {who} on {dated}, {how}."
    if receipt.kind == "refund":
        return f"{receipt.workshop.name} paid {_sum(receipt)} back to {who} on {dated}, {how}."
    taken = f"payment {receipt.reverses}" if receipt.reverses else "the payment"
    return f"On {dated} {taken} of {_sum(receipt)} from {who} is taken back: it did not hold."


def _on_account(receipt: PaymentReceipt) -> str:
    if receipt.deposit:
        return "Held for the build"
    if receipt.kind == "reversal":
        return "Stood on account"
    return "On account, for later invoices" if receipt.kind == "received" else "Out of what stood on account"


def _how(method: str) -> str:
    return "in cash" if method == "cash" else f"by {method}"


def _more(receipt: PaymentReceipt) -> Iterator[str]:
    """What a reader asks next: what the money is for, and what was said with it."""
    if receipt.deposit and receipt.kind == "received":
        build = f" of quote {receipt.build}" if receipt.build else ""
        yield (
            f"It is a deposit for the build{build}, held until the build is invoiced and then taken off what "
            "is due. No tax has been charged on it."
        )
    if receipt.kind == "reversal" and receipt.settled:
        yield "What it had settled is open again."
    if receipt.reference:
        yield f"Said with it: {receipt.reference}."
    if receipt.note:
        yield receipt.note


def _rows(receipt: PaymentReceipt) -> Iterator[SettledRow]:
    for each in receipt.settled:
        yield SettledRow(
            document=f"{first_large(each.kind)} {each.number}",
            on=long_day(each.on, receipt.language),
            amount=in_column(each.amount, receipt.decimals, receipt.language),
            left=in_column(each.left, receipt.decimals, receipt.language) if each.left != ZERO else "nothing",
        )
