"""The control totals of an export: what was posted is what the frozen documents say, to the penny."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import to_say
from quotes.calc.ask.request import Value
from quotes.calc.books.export import Cells, ExportEntry, IssuedDocument, OpenAsOf, PostedLine
from quotes.calc.books.tax_summary import TaxSummary
from quotes.calc.invoice.values import InvoiceSheet

MONEY_ROLES = ("bank", "cash", "card", "cheques")
COUNTED = ("lines", "sound")
MOST_NAMED = 3
"""So many documents are named where sums are apart; the others are in the same state for the same reason."""


class Control(Value):
    """Two sums that have to be one."""

    what: str
    source: str
    amount: Decimal
    against: str
    against_amount: Decimal
    counts: bool = False
    """Whether it counts things; else it is of money."""

    @property
    def apart(self) -> Decimal:
        return self.amount - self.against_amount

    @property
    def cells(self) -> Cells:
        word = "apart" if self.apart else "agrees"
        amount, against, apart = self.amount, self.against_amount, self.apart
        if self.counts:
            return self.what, self.source, int(amount), self.against, int(against), int(apart), word
        return self.what, self.source, amount, self.against, against, apart, word

    def __str__(self) -> str:
        sums = f"{self.source} {_plain(self.amount)}, {self.against} {_plain(self.against_amount)}"
        return f"{self.what}: {sums}, apart by {_plain(self.apart)}"


@dataclass
class Controls:
    """Adds up a batch entry by entry, from the documents and from the journal, each on its own."""

    decimals: int
    held: int
    """Journal lines that the batch was made with."""
    taxes: TaxSummary = field(default_factory=TaxSummary)
    odd: list[str] = field(default_factory=list)
    """Documents whose entry is not theirs."""
    _sums: dict[str, Decimal] = field(default_factory=dict)

    def add(self, entry: ExportEntry) -> None:
        self.taxes.add(entry)
        debit = self._written(line.debit for line in entry.lines)
        credit = self._written(line.credit for line in entry.lines)
        self._add(lines=len(entry.lines), debit=debit, credit=credit, total=entry.total)
        self._odd_if(debit != credit or debit != entry.total, entry.number)
        if entry.source == "invoice":
            self._invoice(entry)
        if entry.source == "payment":
            self._payment(entry)
        if entry.source == "bill":
            self._bill(entry)

    def add_open(self, item: OpenAsOf) -> None:
        self._add(open=self._written([item.open_amount]))

    def set_receivables(self, balance: str) -> None:
        """The balance of the customers' account in the whole journal, on the day that items are open on."""
        self._add(receivables=Decimal(balance))

    def checked(self) -> tuple[Control, ...]:
        """Every control, those that agree and those that do not."""
        return *self._of_entries(), *self._of_sales(), *self._of_money()

    def _of_entries(self) -> tuple[Control, ...]:
        return (
            self._control(
                to_say("Lines of the journal"),
                to_say("written"),
                "lines",
                to_say("held by the batch"),
                Decimal(self.held),
            ),
            self._control(
                to_say("Debits and credits"), to_say("debits"), "debit", to_say("credits"), "credit"
            ),
            self._control(
                to_say("Debits and the entries' sums"), to_say("debits"), "debit", to_say("entries"), "total"
            ),
            self._control(
                to_say("Documents unaltered"),
                to_say("fingerprints that fit"),
                "sound",
                to_say("documents"),
                "documents",
            ),
        )

    def _of_sales(self) -> tuple[Control, ...]:
        sheets, lists, journal = to_say("frozen documents"), to_say("list of documents"), to_say("journal")
        return (
            self._control(
                to_say("Sales before tax"), sheets, "net", to_say("lines of the documents"), "lines_net"
            ),
            self._control(to_say("Sales before tax"), sheets, "net", lists, "list_net"),
            self._control(to_say("Sales before tax"), sheets, "net", journal, "journal_net"),
            self._control(to_say("Tax on sales"), sheets, "tax", lists, "list_tax"),
            self._control(to_say("Tax on sales"), sheets, "tax", journal, "journal_tax"),
            self._control(to_say("Tax on sales"), sheets, "tax", to_say("tax summary"), self.taxes.sales_tax),
            self._control(to_say("Sales with tax"), sheets, "gross", lists, "list_gross"),
            self._control(to_say("Sales with tax"), sheets, "gross", journal, "journal_gross"),
        )

    def _of_money(self) -> tuple[Control, ...]:
        journal = to_say("journal")
        return (
            self._control(to_say("Payments"), to_say("payments"), "paid", journal, "journal_paid"),
            self._control(
                to_say("Tax on purchases"), to_say("bills"), "bill_tax", journal, "journal_bill_tax"
            ),
            self._control(
                to_say("Open items"),
                to_say("open items"),
                "open",
                to_say("customers' account"),
                "receivables",
            ),
        )

    def _control(self, what: str, source: str, key: str, against: str, other: str | Decimal) -> Control:
        amount = self._sums.get(other, ZERO) if isinstance(other, str) else other
        return Control(
            what=what,
            source=source,
            amount=self._sums.get(key, ZERO),
            against=against,
            against_amount=amount,
            counts=key in COUNTED,
        )

    def _invoice(self, entry: ExportEntry) -> None:
        document = entry.invoice
        self._add(documents=1, sound=int(document is not None and document.unaltered))
        if document is None or document.sheet is None:
            self._odd_if(True, entry.number)
            sheet = None
        else:
            sheet = document.sheet
            self._odd_if(not document.unaltered, entry.number)
            self._sheet(document, sheet)
        self._posted(entry, sheet)

    def _sheet(self, document: IssuedDocument, sheet: InvoiceSheet) -> None:
        sign, sums = sheet.sign, sheet.sums
        lines = sum((line.net for line in sheet.lines), ZERO)
        lines += sum((one.signed for one in sheet.adjustments), ZERO)
        self._add(net=sign * sums.net, tax=sign * sums.tax, gross=sign * sums.gross, lines_net=sign * lines)
        self._add(
            list_net=sign * document.net, list_tax=sign * document.tax, list_gross=sign * document.gross
        )
        listed = document.net, document.tax, document.gross
        self._odd_if(listed != (sums.net, sums.tax, sums.gross) or lines != sums.net, document.number)

    def _posted(self, entry: ExportEntry, sheet: InvoiceSheet | None) -> None:
        """Sales, tax and gross as the journal has them.

        What was paid before without tax is no receivable, and the rounding no sale: both are put back.
        """
        paid_before = sheet.sign * sheet.sums.prepaid if sheet else ZERO
        rounding = sheet.sign * sheet.sums.rounding if sheet else ZERO
        tax = -self._movement(entry.lines, ("tax_on_sales",))
        gross = self._movement(entry.lines, ("receivables",)) + paid_before - rounding
        self._add(journal_tax=tax, journal_gross=gross, journal_net=gross - tax)
        if sheet is not None:
            said = sheet.sign * sheet.sums.tax, sheet.sign * sheet.sums.gross
            self._odd_if((tax, gross) != said, entry.number)

    def _payment(self, entry: ExportEntry) -> None:
        paid = entry.payment.amount if entry.payment else ZERO
        journal = self._movement(entry.lines, MONEY_ROLES)
        self._add(paid=paid, journal_paid=journal)
        self._odd_if(paid != journal, entry.number)

    def _bill(self, entry: ExportEntry) -> None:
        tax = entry.bill.tax if entry.bill else ZERO
        journal = self._movement(entry.lines, ("tax_on_purchases",))
        self._add(bill_tax=tax, journal_bill_tax=journal)
        self._odd_if(tax != journal, entry.number)

    def _movement(self, lines: Iterable[PostedLine], roles: tuple[str, ...]) -> Decimal:
        """Debits less credits of those accounts."""
        return self._written(line.debit - line.credit for line in lines if line.role in roles)

    def _written(self, amounts: Iterable[Decimal]) -> Decimal:
        """The sum as it is written, each part with the currency's decimals."""
        return sum((round_half_up(amount, self.decimals) for amount in amounts), ZERO)

    def _add(self, **amounts: Decimal | int) -> None:
        for key, amount in amounts.items():
            self._sums[key] = self._sums.get(key, ZERO) + amount

    def _odd_if(self, wrong: bool, number: str) -> None:
        if wrong and number not in self.odd:
            self.odd.append(number)


def what_differs(controls: Iterable[Control], odd: Iterable[str]) -> str:
    """What is apart and by how much, with the documents it is about; empty where all agree."""
    found = [str(control) for control in controls if control.apart]
    named = list(odd)
    if not found and not named:
        return ""
    more = f" and {len(named) - MOST_NAMED} more" if len(named) > MOST_NAMED else ""
    about = f" See {', '.join(named[:MOST_NAMED])}{more}." if named else ""
    return (
        "; ".join(found) + "." + about if found else f"Entries that are not those of their documents.{about}"
    )


def _plain(amount: Decimal) -> str:
    """A sum without the noughts behind its last decimal.

    >>> _plain(Decimal("159.530")), _plain(Decimal("100.000"))
    ('159.53', '100')
    """
    text = format(amount, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text
