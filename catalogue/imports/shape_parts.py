"""Spreads the price list, written per component, into one row per part number."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any

from catalogue.calc.fault import Fault
from catalogue.calc.money import round_half_up

GRADES = ("stock", "performance")
ENDING = {"stock": "", "performance": "-P"}
"""How a part number says its grade."""
ADDED = {"stock": "", "performance": ", performance grade"}
"""How a part's name says its grade."""
Entry = dict[str, Any]
FIELDS = {"component", "unit", "quantity", "range", "stock", "performance", "note", "source"}


def vendors(suppliers: Sequence[Entry], faults: list[Fault]) -> dict[str, str]:
    """Who does each machine work. Two suppliers for one work are a fault."""
    done_by: dict[str, str] = {}
    for supplier in suppliers:
        for work in supplier.get("machine_work", []):
            if work in done_by:
                faults.append(
                    _supplier_fault(supplier, "machine_work", f"{work!r} is also {done_by[work]}'s")
                )
            done_by[work] = str(supplier.get("code"))
    return done_by


def part_rows(
    entries: Sequence[Entry], components: Sequence[Entry], suppliers: Sequence[Entry], faults: list[Fault]
) -> list[Entry]:
    """One raw row per part number, with the offer of the supplier that delivers it."""
    groups = {str(row.get("code")): str(row.get("group")) for row in components}
    names = {str(row.get("code")): str(row.get("name")) for row in components}
    delivered_by = _deliveries(suppliers, groups, faults)
    rows: list[Entry] = []
    for entry in entries:
        for field in set(entry) - FIELDS:
            faults.append(_part_fault(entry, field, "no part has such a field"))
        for grade in GRADES:
            if isinstance(entry.get(grade), dict):
                rows += _of_grade(entry, grade, delivered_by, faults)
    for row in rows:
        row["name"] = names.get(row["component"], "") + ADDED[row["grade"]]
    return rows


def _deliveries(
    suppliers: Sequence[Entry], groups: Mapping[str, str], faults: list[Fault]
) -> dict[tuple[str, str], str]:
    """Supplier by component and grade. Two suppliers for one are a fault, as is an unknown name."""
    found: dict[tuple[str, str], str] = {}
    for supplier in suppliers:
        for component, grade in _delivered(supplier, groups, faults):
            if (component, grade) in found:
                reason = f"{component!r} in {grade} grade is also {found[component, grade]}'s"
                faults.append(_supplier_fault(supplier, "delivers", reason))
            found[component, grade] = str(supplier.get("code"))
    return found


def _delivered(supplier: Entry, groups: Mapping[str, str], faults: list[Fault]) -> Iterator[tuple[str, str]]:
    for delivery in supplier.get("delivers", []):
        for group in delivery.get("groups", []):
            if group not in groups.values():
                faults.append(_supplier_fault(supplier, "delivers.groups", f"no component group {group!r}"))
            yield from ((code, delivery["grade"]) for code, own in groups.items() if own == group)
        for code in delivery.get("components", []):
            if code not in groups:
                faults.append(_supplier_fault(supplier, "delivers.components", f"no component {code!r}"))
            yield code, delivery["grade"]


def _of_grade(
    entry: Entry, grade: str, delivered_by: Mapping[tuple[str, str], str], faults: list[Fault]
) -> list[Entry]:
    component, terms = str(entry.get("component")), entry[grade]
    supplier = delivered_by.get((component, grade))
    if supplier is None:
        faults.append(_part_fault(entry, grade, "no supplier in suppliers.yaml delivers it"))
        return []
    return [
        _row(entry, grade, engine_type, Decimal(str(price)), supplier)
        for engine_type, price in (terms.get("list_price") or {}).items()
        if _is_number(price, entry, f"{grade}.list_price.{engine_type}", faults)
    ]


def _row(entry: Entry, grade: str, engine_type: str, price: Decimal, supplier: str) -> Entry:
    component, terms, span = str(entry["component"]), entry[grade], entry.get("range") or {}
    lead = terms.get("lead_days") or {}
    return {
        "number": f"{engine_type.upper()}-{component.upper()}{ENDING[grade]}",
        "engine_type": engine_type,
        "component": component,
        "grade": grade,
        "unit": entry.get("unit"),
        "quantity": (entry.get("quantity") or {}).get(engine_type),
        "list_price": price,
        "range_low": span.get("low"),
        "range_high": span.get("high"),
        "note": entry.get("note", ""),
        "source": entry.get("source", ""),
        "offers": [
            {
                "supplier": supplier,
                "cost": _cost(price, terms.get("trade_discount_pct", 0)),
                "lead_typical_days": lead.get("typical"),
                "lead_slow_days": lead.get("slow"),
                "source": entry.get("source", ""),
            }
        ],
    }


def _cost(price: Decimal, discount_pct: float) -> Decimal:
    """List less the trade discount, to the cent."""
    return round_half_up(price * (1 - Decimal(str(discount_pct)) / 100))


def _is_number(value: object, entry: Entry, field: str, faults: list[Fault]) -> bool:
    if isinstance(value, int | float) and not isinstance(value, bool):
        return True
    faults.append(_part_fault(entry, field, f"a price is a number, not {value!r}"))
    return False


def _part_fault(entry: Entry, field: str, reason: str) -> Fault:
    return Fault("parts", str(entry.get("component")), field, reason)


def _supplier_fault(supplier: Entry, field: str, reason: str) -> Fault:
    return Fault("suppliers", str(supplier.get("code")), field, reason)
