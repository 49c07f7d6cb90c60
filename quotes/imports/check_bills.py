"""A file of bills against the books: bills that are known, builds that are not."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say
from quotes.calc.books.given_bills import BillGiven
from quotes.imports.faults import RowFault
from quotes.imports.read_bills import BillFile, read_bills
from quotes.models import Acceptance, MonthLock, SupplierBill, Workshop
from quotes.queries.books.bills import accepted_builds
from quotes.queries.books.costs import FOR_A_BUILD
from quotes.queries.workshop import currency_decimals

SORTS = {
    "part": "parts",
    "machine_work": "machine work",
    "freight": "freight",
    "stock": "parts for stock",
    "overhead": "overheads",
}
"""What a file calls each kind of line."""


@dataclass(frozen=True, slots=True)
class CheckedBills:
    """A file with all its faults and the builds that its lines are for."""

    file: BillFile
    builds: dict[str, Acceptance]
    faults: tuple[RowFault, ...]

    @property
    def sound(self) -> bool:
        return not self.faults and bool(self.file.bills)


def check_bills(content: bytes, on: date) -> CheckedBills:
    """Read and check a file; FileFault where it can't be read at all. Four queries, whatever it holds.

    No bill may be dated after `on`.
    """
    file = read_bills(content, SORTS)
    builds = accepted_builds(line.build for bill in file.bills for line in bill.lines if line.build)
    closed = set(MonthLock.objects.standing().values_list("month", flat=True))
    known = _known(file)
    decimals = currency_decimals(Workshop.objects.get_or_default().currency)
    found = [fault for bill in file.bills for fault in _faults(file.sheet, bill, builds, closed, known)]
    found += [fault for bill in file.bills for fault in _sums(file.sheet, bill, decimals)]
    found += [
        RowFault(
            file.sheet,
            bill.line,
            say("Date"),
            str(bill.on),
            say("is still to come"),
            say("up to {on}", on=on),
        )
        for bill in file.bills
        if bill.on > on
    ]
    return CheckedBills(file, builds, tuple(sorted([*file.faults, *found], key=lambda fault: fault.line)))


def _known(file: BillFile) -> dict[tuple[str, str], str]:
    """Our number of every bill in the books that has a supplier's number of the file."""
    numbers = {bill.number for bill in file.bills}
    rows = SupplierBill.objects.standing().filter(supplier_number__in=numbers)
    told = rows.values_list("supplier", "supplier_number", "number")
    return {(supplier.casefold(), theirs.casefold()): ours for supplier, theirs, ours in told}


def _faults(
    sheet: str,
    bill: BillGiven,
    builds: dict[str, Acceptance],
    closed: set[date],
    known: dict[tuple[str, str], str],
) -> Iterator[RowFault]:
    if ours := known.get((bill.supplier.casefold(), bill.number.casefold())):
        allowed = say("a bill that is not entered yet: take its lines out")
        yield RowFault(
            sheet, bill.line, say("Number"), bill.number, say("is in the books as {ours}", ours=ours), allowed
        )
    if bill.on.replace(day=1) in closed:
        allowed = say("a day in an open month")
        yield RowFault(
            sheet, bill.line, say("Date"), str(bill.on), say("is in a month that is closed"), allowed
        )
    for line in bill.lines:
        if line.build and line.build.upper() not in builds:
            allowed = say("the number of an accepted quote, or nothing")
            yield RowFault(sheet, line.line, say("Build"), line.build, say("is not known"), allowed)
        elif line.build and line.kind not in FOR_A_BUILD:
            reason = say("can't stand beside {sort}", sort=SORTS[line.kind])
            yield RowFault(sheet, line.line, say("Build"), line.build, reason, say("nothing"))


def _sums(sheet: str, bill: BillGiven, decimals: int) -> Iterator[RowFault]:
    """Sums finer than the currency has coins, and tax that can't be that of its bill."""
    allowed = say("at most {decimals} decimals", decimals=decimals)
    for line in bill.lines:
        if round_half_up(line.net, decimals) != line.net:
            yield RowFault(
                sheet,
                line.line,
                say("Before tax"),
                f"{line.net:f}",
                say("is finer than a coin"),
                allowed,
            )
    if round_half_up(bill.tax, decimals) != bill.tax:
        yield RowFault(sheet, bill.line, say("Tax"), f"{bill.tax:f}", say("is finer than a coin"), allowed)
    if bill.tax * bill.net < ZERO or abs(bill.tax) > abs(bill.net):
        fitting = say("tax of {net}, with its sign", net=f"{bill.net:f}")
        yield RowFault(
            sheet,
            bill.line,
            "Tax",
            f"{bill.tax:f}",
            say("can't be the tax of this bill"),
            fitting,
        )
