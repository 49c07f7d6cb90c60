"""The journal entry of every document, derived from the document alone.

Sums are in the shop's currency. An entry whose debits are not its credits can't exist (`Entry`), so a
document whose lines do not add up to its totals has none.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Literal

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.ask.request import Value
from quotes.calc.books.accounts import MONEY, ON_THE_CREDIT_SIDE, SALES, Accounts
from quotes.calc.books.entry_lines import EntryLines
from quotes.calc.books.values import Entry, Role
from quotes.calc.invoice.values import InvoiceSheet, Kind

TITLES: Mapping[Kind, str] = {
    "deposit_invoice": to_say("Deposit invoice"),
    "invoice": to_say("Invoice"),
    "credit_note": to_say("Credit note"),
}


def invoice_entry(sheet: InvoiceSheet, accounts: Accounts, build: str = "") -> Entry:
    """What an invoice, deposit invoice or credit note does: a credit note mirrors what it takes back.

    Sales by account, tax code and rate; tax once for each group; deposits taken by receipt leave the
    deposits held. `build` is the number of the quote that the build was accepted on.
    """
    lines, sums, sign = EntryLines(accounts, build), sheet.sums, sheet.sign
    lines.debit("receivables", sign * sums.due, text=sheet.number)
    lines.debit("deposits_held", sign * sums.prepaid, text=say("Taken off, by receipt"))
    lines.credit("rounding", sign * sums.rounding)
    for line in sheet.lines:
        lines.credit(SALES[line.kind], sign * line.net, tax_code=line.tax_code, rate_pct=line.rate_pct)
    for part in sheet.adjustments:
        role: Role = "discounts" if part.kind == "allowance" else "sales_other"
        lines.credit(
            role, sign * part.signed, text=part.reason, tax_code=part.tax_code, rate_pct=part.rate_pct
        )
    for group in sums.tax_groups:
        lines.credit("tax_on_sales", sign * group.tax, tax_code=group.code, rate_pct=group.rate_pct)
    return Entry(
        on=sheet.issued_on,
        source="invoice",
        number=sheet.number,
        party=sheet.buyer.name,
        text=f"{say(TITLES[sheet.kind])} {sheet.number}",
        lines=lines.made(),
    )


class MoneyMoved(Value):
    """A payment as the journal sees it. `amount` is above nought, `came_in` says which way it went."""

    on: date
    number: str
    party: str
    method: str
    amount: Decimal
    came_in: bool
    deposit: bool = False
    """Held for a build: a liability until it is invoiced, or paid back from there."""
    owed: Decimal = ZERO
    """Of a deposit taken back: what an invoice has taken off already, so that the customer owes it."""
    build: str = ""
    text: str = to_say("Payment")


def payment_entry(moved: MoneyMoved, accounts: Accounts) -> Entry:
    """Money in: on the account of its way to pay, off what the customer owes or onto the deposits held."""
    lines, sign = EntryLines(accounts, moved.build), 1 if moved.came_in else -1
    lines.debit(MONEY[moved.method], sign * moved.amount)
    held = moved.amount - moved.owed if moved.deposit else ZERO
    lines.credit("deposits_held", sign * held, text=moved.number)
    lines.credit("receivables", sign * (moved.amount - held), text=moved.number)
    return Entry(
        on=moved.on,
        source="payment",
        number=moved.number,
        party=moved.party,
        text=f"{say(moved.text)} {moved.number}",
        lines=lines.made(),
    )


def write_off_entry(
    *, on: date, number: str, of: str, party: str, amount: Decimal, accounts: Accounts
) -> Entry:
    """What the owner gives up asking for. Tax already owed on it stays as it is: relief follows local law."""
    lines = EntryLines(accounts)
    lines.debit("written_off", amount)
    lines.credit("receivables", amount, text=of)
    text = say("Written off {number}: {of}", number=number, of=of)
    return Entry(on=on, source="write_off", number=number, party=party, text=text, lines=lines.made())


BillLineKind = Literal["part", "machine_work", "freight", "stock", "overhead"]
COSTS: Mapping[BillLineKind, Role] = {
    "part": "cost_of_parts",
    "machine_work": "cost_of_machine_work",
    "freight": "cost_of_sales_other",
    "stock": "stock",
    "overhead": "overheads",
}
"""The account of a bill's line that is for no build, or for one that is finally invoiced."""


class BillCost(Value):
    """A line of a supplier's bill as the journal sees it; `settled`: its build is finally invoiced."""

    kind: BillLineKind
    cost: Decimal
    build: str = ""
    settled: bool = False


def bill_entry(
    *,
    on: date,
    number: str,
    supplier: str,
    supplier_number: str,
    costs: Sequence[BillCost],
    tax: Decimal,
    accounts: Accounts,
) -> Entry:
    """A supplier's bill, or with sums below nought his credit note. `tax` is what the shop gets back.

    What is for a build is work in progress until the build is finally invoiced, and cost of sales after.
    """
    lines = EntryLines(accounts)
    for each in costs:
        in_progress = each.build and not each.settled
        role = "work_in_progress" if in_progress else COSTS[each.kind]
        lines.debit(role, each.cost, build=each.build)
    lines.debit("tax_on_purchases", tax)
    lines.credit("payables", sum((each.cost for each in costs), tax), text=supplier_number)
    words = say("Credit {number} of {supplier}") if _below(costs) else say("Bill {number} of {supplier}")
    text = words.format(number=supplier_number, supplier=supplier)
    return Entry(on=on, source="bill", number=number, party=supplier, text=text, lines=lines.made())


def _below(costs: Sequence[BillCost]) -> bool:
    return sum((each.cost for each in costs), ZERO) < ZERO


def bill_payment_entry(
    *, on: date, number: str, supplier: str, method: str, gross: Decimal, accounts: Accounts
) -> Entry:
    """A bill paid in full; money that comes back where its sum is below nought."""
    lines = EntryLines(accounts)
    lines.debit("payables", gross, text=number)
    lines.credit(MONEY[method], gross)
    words = say("Paid {number} of {supplier}") if gross > ZERO else say("Paid back {number} of {supplier}")
    text = words.format(number=number, supplier=supplier)
    return Entry(on=on, source="bill_payment", number=number, party=supplier, text=text, lines=lines.made())


def stock_entry(
    *, on: date, build: str, description: str, cost: Decimal, settled: bool, accounts: Accounts
) -> Entry:
    """Parts from the shelf for a build; back onto it where the cost is below nought."""
    lines = EntryLines(accounts)
    lines.debit("cost_of_parts" if settled else "work_in_progress", cost, build=build)
    lines.credit("stock", cost)
    text = say("From stock: {description}", description=description)
    return Entry(on=on, source="stock", number=build, text=text, lines=lines.made())


class BuildCosts(Value):
    """What a build has cost, by the account that its cost of sales goes to."""

    parts: Decimal = ZERO
    machine_work: Decimal = ZERO
    other: Decimal = ZERO

    @property
    def total(self) -> Decimal:
        return self.parts + self.machine_work + self.other


def cost_of_sales_entry(*, on: date, build: str, party: str, costs: BuildCosts, accounts: Accounts) -> Entry:
    """Work in progress of a build that is finally invoiced becomes cost of sales."""
    lines = EntryLines(accounts, build)
    lines.debit("cost_of_parts", costs.parts)
    lines.debit("cost_of_machine_work", costs.machine_work)
    lines.debit("cost_of_sales_other", costs.other)
    lines.credit("work_in_progress", costs.total)
    text = say("Cost of sales of {build}", build=build)
    return Entry(on=on, source="cost_of_sales", number=build, party=party, text=text, lines=lines.made())


def cost_taken_back_entry(
    *, on: date, build: str, party: str, costs: BuildCosts, accounts: Accounts
) -> Entry:
    """Cost of sales of a build whose final invoice was credited is work in progress again."""
    lines = EntryLines(accounts, build)
    lines.debit("work_in_progress", costs.total)
    lines.credit("cost_of_parts", costs.parts)
    lines.credit("cost_of_machine_work", costs.machine_work)
    lines.credit("cost_of_sales_other", costs.other)
    text = say("In work again: {build}", build=build)
    return Entry(on=on, source="cost_taken_back", number=build, party=party, text=text, lines=lines.made())


class OpeningLine(Value):
    """One balance that the books begin with. `amount` is above nought on the account's own side."""

    role: Role
    amount: Decimal
    text: str = ""
    build: str = ""


def opening_entry(*, on: date, balances: Sequence[OpeningLine], accounts: Accounts) -> Entry:
    """The balances that the books begin with. ValueError where the two sides differ."""
    lines: list[EntryLines] = []
    for each in balances:
        line = EntryLines(accounts, each.build)
        put = line.credit if each.role in ON_THE_CREDIT_SIDE else line.debit
        put(each.role, each.amount, text=each.text)
        lines.append(line)
    return Entry(
        on=on,
        source="opening",
        number=f"opening {on.isoformat()}",
        text=say("Opening balances"),
        lines=tuple(made for line in lines for made in line.made()),
    )
