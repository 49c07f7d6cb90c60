"""The totals of one case, through the sums that our invoices are made by.

What was paid and the rounding are given as `paid` and `rounding`, or stand among the `expected` figures as
BT113_paid and BT114_rounding; every other expected figure is worked out and never read.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Any, TypeGuard

from pydantic import ValidationError

from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.ask.fault import BadRequest, Fault
from quotes.calc.ask.read_request import fault_of
from quotes.calc.invoice.case_faults import case_faults
from quotes.calc.invoice.case_values import CaseLine, DocumentAdjustment, InvoiceCase, net_price
from quotes.calc.invoice.sums import document_sums, line_net
from quotes.calc.invoice.values import Adjustment, InvoiceLine, Sums
from quotes.calc.shop import TaxCode, TaxComponent


def read_case(raw: object) -> InvoiceCase:
    """The case in `raw`, as JSON gives it. Raises BadRequest with a fault for each field that is wrong."""
    if not isinstance(raw, Mapping):
        raise BadRequest((Fault("case", type(raw).__name__, "an object with lines"),))
    try:
        case = InvoiceCase.model_validate(raw)
    except ValidationError as error:
        raise BadRequest(tuple(fault_of(each, whole="case") for each in error.errors())) from error
    if found := tuple(case_faults(case)):
        raise BadRequest(found)
    return case


def is_list_of_cases(raw: object) -> TypeGuard[Mapping[str, Any]]:
    """Whether a file holds several cases, as they are published, and not one."""
    return isinstance(raw, Mapping) and isinstance(raw.get("cases"), list)


def totals_of_all(raw: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The totals of each case of a list, with its `id`. Raises BadRequest with all faults of all cases."""
    found: list[dict[str, Any]] = []
    faults: list[Fault] = []
    for place, one in enumerate(raw["cases"]):
        try:
            case = read_case(one)
        except BadRequest as error:
            faults += (replace(fault, field=f"cases.{place}.{fault.field}") for fault in error.faults)
        else:
            found.append({"id": case.id, **totals_of(case)})
    if faults:
        raise BadRequest(tuple(faults))
    return found


def totals_of(case: InvoiceCase) -> dict[str, Any]:
    """Line nets, BT-106 to BT-115 and the tax groups: money as text with the currency's decimals."""
    decimals = case.money_decimals
    lines = [_line(number, line, decimals) for number, line in enumerate(case.lines, start=1)]
    sums = document_sums(
        lines,
        [_adjustment(one) for one in case.doc_allowances_charges],
        _codes(case),
        decimals=decimals,
        prepaid=case.expected.BT113_paid if case.paid is None else case.paid,
        rounding=case.expected.BT114_rounding if case.rounding is None else case.rounding,
    )
    nets = [
        {"id": given.id, "net": _money(line.net, decimals)}
        for given, line in zip(case.lines, lines, strict=True)
    ]
    return {"lines": nets, **_figures(sums, decimals)}


def _figures(sums: Sums, decimals: int) -> dict[str, Any]:
    figures = {
        "BT106_line_total": sums.line_total,
        "BT107_allowances": sums.allowance_total,
        "BT108_charges": sums.charge_total,
        "BT109_total_without_vat": sums.net,
        "BT110_vat": sums.tax,
        "BT112_total_with_vat": sums.gross,
        "BT113_paid": sums.prepaid,
        "BT114_rounding": sums.rounding,
        "BT115_due": sums.due,
    }
    return {
        **{name: _money(figure, decimals) for name, figure in figures.items()},
        "vat_breakdown": [
            {
                "category": group.category,
                "rate": f"{group.rate_pct:f}",
                "taxable": _money(group.taxable, decimals),
                "tax": _money(group.tax, decimals),
            }
            for group in sums.tax_groups
        ],
    }


def _money(amount: Decimal, decimals: int) -> str:
    return f"{round_half_up(amount, decimals):f}"


def _line(number: int, line: CaseLine, decimals: int) -> InvoiceLine:
    found = InvoiceLine(
        number=number,
        kind="other",
        description=line.id,
        quantity=line.qty,
        unit=line.unit,
        unit_code=line.unit,
        unit_price=net_price(line),
        price_base=line.base_qty,
        adjustments=tuple(Adjustment(kind=one.kind, amount=one.amount) for one in line.allowances_charges),
        net=ZERO,
        tax_code=_code(line.vat_category, line.vat_rate),
        category=line.vat_category,
        rate_pct=line.vat_rate,
    )
    return found.model_copy(update={"net": line_net(found, decimals)})


def _adjustment(one: DocumentAdjustment) -> Adjustment:
    return Adjustment(
        kind=one.kind,
        amount=one.amount,
        tax_code=_code(one.vat_category, one.vat_rate),
        category=one.vat_category,
        rate_pct=one.vat_rate,
    )


def _code(category: str, rate: Decimal) -> str:
    return f"{category} {rate.normalize():f}"


def _codes(case: InvoiceCase) -> dict[str, TaxCode]:
    """A tax code for each category and rate in the case."""
    items: Iterable[CaseLine | DocumentAdjustment] = (*case.lines, *case.doc_allowances_charges)
    codes: dict[str, TaxCode] = {}
    for item in items:
        code = _code(item.vat_category, item.vat_rate)
        codes.setdefault(code, TaxCode(code, item.vat_category, (TaxComponent("VAT", item.vat_rate),)))
    return codes
