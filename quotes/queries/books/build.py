"""The account of one build, read in a number of queries that does not grow with what is in it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import cast

from django.db.models import Sum

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.calc.invoice.clocked import ClockRates, with_clocked_hours
from quotes.calc.invoice.credit import left_to_credit
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.from_yes import ExtraLines, accepted_lines, still_to_invoice
from quotes.calc.invoice.sums import draft_sums, line_net
from quotes.calc.invoice.tally import Tally, tally
from quotes.calc.invoice.values import InvoiceSheet
from quotes.calc.sheet.values import Option
from quotes.models import (
    Acceptance,
    ExtraWork,
    ExtraWorkState,
    Invoice,
    InvoiceDraft,
    OwnPart,
    Payment,
    WorkedHours,
    Workshop,
)
from quotes.queries.books.account import AcceptedLine, BuildAccount, DepositOf, HoursOf, LabourBy
from quotes.queries.books.agreed import agreed_of
from quotes.queries.books.build_deposits import by_invoice, by_receipt
from quotes.queries.books.chart import books_settings
from quotes.queries.books.clocked_work import clock_rates, clocked_unquoted, fixed_components
from quotes.queries.books.credits import sheet_of_invoice
from quotes.queries.books.day import MoneyOfDay, money_of
from quotes.queries.books.deposits import used_by_sales
from quotes.queries.books.so_far import bought_lines, extras_bought, work_so_far
from quotes.queries.sheets import sheet_of
from quotes.queries.workshop import taxability

JOINED = ("quote__engine", "quote__customer", "revision", "called_off__by")


@dataclass(frozen=True, slots=True)
class _Read:
    """The rows of one build, each read once."""

    build: Acceptance
    option: Option
    engine_type: str
    workshop: Workshop
    money: MoneyOfDay
    extra_work: tuple[ExtraWork, ...]
    documents: Mapping[Invoice, InvoiceSheet]
    clocked: Mapping[str, Decimal]


def build_account(build: Acceptance, on: date, labour_by: LabourBy | None = None) -> BuildAccount:
    """What is agreed, asked for, held and still to come of a build, at the tax rates of that day.

    Labour is counted by `labour_by`, else as the latest invoice of the build did, else as the books say.
    """
    read = _read(build, on)
    asked = tally(read.documents.values())
    by = "clocked" if read.build.is_called_off else labour_by or _labour_by(read.documents)
    quoted = _accepted(read)
    accepted = _to_be_done(read, quoted, by)
    left = still_to_invoice(accepted, asked.quantities, nets=asked.nets, decimals=read.money.decimals)
    return BuildAccount(
        build=read.build,
        on=on,
        currency=read.money.currency,
        decimals=read.money.decimals,
        tax_codes=read.money.tax_codes,
        agreed=agreed_of(read.build, read.extra_work),
        labour_by=by,
        lines=tuple(_against(accepted, asked, left)),
        to_invoice=left,
        to_invoice_gross=_gross(left, read.money),
        accepted_gross=_gross(quoted, read.money),
        extra_work=read.extra_work,
        documents=tuple(read.documents),
        drafts=tuple(InvoiceDraft.objects.open().joined().filter(build=build).order_by("pk")),
        deposits=_deposits(read, asked),
        hours=tuple(_hours(read)),
        asked=asked,
        finally_invoiced=_is_final(read.documents, asked, left),
    )


def finally_invoiced(build: Acceptance, on: date) -> bool:
    """What the account says of it; mostly the documents alone say so, without what is still to come."""
    documents = _documents(build.pk, "draft")
    if tally(documents.values()).gross and _says_it_is_final(documents):
        return True
    return build_account(build, on).finally_invoiced


def _documents(build_id: int, *joined: str) -> dict[Invoice, InvoiceSheet]:
    rows = Invoice.objects.of_build(build_id).select_related(*joined).order_by("issued_at", "pk")
    return {document: sheet_of_invoice(document) for document in rows}


def _read(build: Acceptance, on: date) -> _Read:
    row = Acceptance.objects.select_related(*JOINED).get(pk=build.pk)
    workshop = Workshop.objects.get_or_default()
    comparison = sheet_of(row.revision).comparison
    extra_work = ExtraWork.objects.filter(build=row).select_related("build__quote", "offered_by")
    worked = WorkedHours.objects.of_build(row.pk).order_by().values_list("operation")
    return _Read(
        build=row,
        option=comparison.option(row.tier),
        engine_type=comparison.engine_type,
        workshop=workshop,
        money=money_of(on, workshop),
        extra_work=tuple(extra_work.order_by("index")),
        documents=_documents(row.pk, "customer", "item", "draft", "original"),
        clocked=dict(worked.annotate(Sum("hours"))),
    )


def _labour_by(documents: Iterable[Invoice]) -> LabourBy:
    issued = [row for row in documents if row.kind == "invoice"]
    said = Draft.model_validate(issued[-1].draft.content).labour_by if issued else books_settings().labour_by
    return cast(LabourBy, str(said))


def _accepted(read: _Read) -> tuple[DraftLine, ...]:
    """All that the yes and extra work cover, accepted or within the limit, at the hours quoted."""
    extra_work = [
        ExtraLines(row.index, tuple(DraftLine.model_validate(line) for line in row.lines))
        for row in read.extra_work
        if row.state in (ExtraWorkState.ACCEPTED, ExtraWorkState.WITHIN)
    ]
    return accepted_lines(
        read.option,
        read.build.extras,
        extra_work,
        part_tax_code=taxability(read.workshop)["part"],
        own_parts=_brought(read),
    )


def _brought(read: _Read) -> frozenset[str]:
    """Components of which the customer brought all that the option takes; a draft splits a line of some."""
    rows = OwnPart.objects.filter(build=read.build, fit_to_use=True).order_by().values_list("component")
    takes = {line.component or line.code: line.quantity for line in read.option.lines if line.kind == "part"}
    brought = rows.annotate(Sum("quantity"))
    return frozenset(component for component, pieces in brought if pieces >= takes.get(component, ZERO))


def _to_be_done(read: _Read, quoted: Sequence[DraftLine], by: LabourBy) -> tuple[DraftLine, ...]:
    """The accepted lines as they are charged: by hours quoted or clocked; of a build called off, so far."""
    if read.build.is_called_off:
        bought = bought_lines(read.build, quoted, read.money.decimals)
        rates = _rates(read, extras_bought(bought))
        return work_so_far(read.build, quoted, bought, read.clocked, rates, read.money, read.workshop)
    if by == "clocked":
        rates = _rates(read, fixed_components(read.build, read.extra_work))
        return with_clocked_hours(quoted, read.clocked, rates)
    return tuple(quoted)


def _rates(read: _Read, fixed: Collection[str]) -> ClockRates:
    return clock_rates(read.build, read.option, fixed, read.clocked, read.workshop, read.engine_type)


def _gross(lines: Sequence[DraftLine], money: MoneyOfDay) -> Decimal:
    """With tax; a line whose tax code the workshop no longer has is counted without."""
    known = tuple(line for line in lines if line.taxed or line.tax_code in money.tax_codes)
    gone = (line for line in lines if not line.taxed and line.tax_code not in money.tax_codes)
    nets = sum((line_net(line, money.decimals) for line in gone), ZERO)
    return draft_sums(Draft(lines=known), money.tax_codes, money.decimals).gross + nets


def _against(
    accepted: Sequence[DraftLine], asked: Tally, left: Sequence[DraftLine]
) -> Iterable[AcceptedLine]:
    rest = {line.key: line for line in left}
    for line in accepted:
        yield AcceptedLine(line, asked.quantities.get(line.key, ZERO), rest.get(line.key))


def _deposits(read: _Read, asked: Tally) -> tuple[DepositOf, ...]:
    payments = (
        Payment.objects.deposits_of(read.build).select_related("customer", "reversed_by").order_by("on", "pk")
    )
    elsewhere = used_by_sales(payments) if any(row.job_id for row in payments) else {}
    return (*by_invoice(read.documents, asked), *by_receipt(payments, asked, elsewhere))


def _hours(read: _Read) -> Iterable[HoursOf]:
    """Operations in the order of work, then what was clocked on others."""
    for step in read.option.work:
        yield HoursOf(step.code, step.name, step.hours, read.clocked.get(step.code, ZERO))
    others = clocked_unquoted(read.option, read.clocked, read.engine_type)
    quoted = {step.code for step in read.option.work}
    for code in sorted(read.clocked.keys() - quoted):
        name = others[code].name if code in others else code or say("Other bench work")
        yield HoursOf(code, name, ZERO, read.clocked[code])


def _is_final(documents: Mapping[Invoice, InvoiceSheet], asked: Tally, left: Sequence[DraftLine]) -> bool:
    """Whether nothing more will be asked for: nothing accepted is left, or an invoice that stands says so."""
    invoices = [row for row in documents if row.kind == "invoice"]
    if not invoices or not asked.gross:
        return bool(invoices) and not left and not any(row.kind == "credit_note" for row in documents)
    return not left or _says_it_is_final(documents)


def _says_it_is_final(documents: Mapping[Invoice, InvoiceSheet]) -> bool:
    """Whether an invoice that stands was the last to be asked for."""
    said_so = (row for row in documents if row.kind == "invoice" and row.draft.content.get("last"))
    return any(_stands(row, documents) for row in said_so)


def _stands(invoice: Invoice, documents: Mapping[Invoice, InvoiceSheet]) -> bool:
    """Whether anything of it has not been credited."""
    notes = [sheet for row, sheet in documents.items() if row.original_id == invoice.pk]
    return bool(left_to_credit(documents[invoice], notes))
