"""A file of bills against the books: bills that are known, builds that are not."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.books.given_bills import BillGiven
from quotes.imports.faults import RowFault
from quotes.imports.read_bills import BillFile, read_bills
from quotes.models import Acceptance, BillLineKind, MonthLock, SupplierBill, Workshop
from quotes.queries.books.bills import accepted_builds
from quotes.queries.books.costs import FOR_A_BUILD
from quotes.queries.workshop import currency_decimals

SORTS = {str(code): str(label) for code, label in BillLineKind.choices}


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
        RowFault(file.sheet, bill.line, "Date", str(bill.on), "is still to come", f"up to {on}")
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
        allowed = "a bill that is not entered yet: take its lines out"
        yield RowFault(sheet, bill.line, "Number", bill.number, f"is in the books as {ours}", allowed)
    if bill.on.replace(day=1) in closed:
        allowed = "a day in an open month"
        yield RowFault(sheet, bill.line, "Date", str(bill.on), "is in a month that is closed", allowed)
    for line in bill.lines:
        if line.build and line.build.upper() not in builds:
            allowed = "the number of an accepted quote, or nothing"
            yield RowFault(sheet, line.line, "Build", line.build, "is not known", allowed)
        elif line.build and line.kind not in FOR_A_BUILD:
            reason = f"can't stand beside {SORTS[line.kind]}"
            yield RowFault(sheet, line.line, "Build", line.build, reason, "nothing")


def _sums(sheet: str, bill: BillGiven, decimals: int) -> Iterator[RowFault]:
    """Sums finer than the currency has coins, and tax that can't be that of its bill."""
    allowed = f"at most {decimals} decimals"
    for line in bill.lines:
        if round_half_up(line.net, decimals) != line.net:
            yield RowFault(sheet, line.line, "Before tax", f"{line.net:f}", "is finer than a coin", allowed)
    if round_half_up(bill.tax, decimals) != bill.tax:
        yield RowFault(sheet, bill.line, "Tax", f"{bill.tax:f}", "is finer than a coin", allowed)
    if bill.tax * bill.net < ZERO or abs(bill.tax) > abs(bill.net):
        fitting = f"tax of {bill.net:f}, with its sign"
        yield RowFault(sheet, bill.line, "Tax", f"{bill.tax:f}", "can't be the tax of this bill", fitting)
