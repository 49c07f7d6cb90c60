"""Sound tables for each importer, to be spoiled."""

from __future__ import annotations

from quotes.imports.bill_columns import COLUMNS as BILL_COLUMNS
from quotes.imports.customer_columns import COLUMNS as CUSTOMER_COLUMNS
from quotes.imports.evidence_columns import COLUMNS as EVIDENCE_COLUMNS
from tests.fuzz.files import delimited

Rows = list[list[str]]


def _row(columns: object, **cells: str) -> list[str]:
    """Each column's example, or what is given by its key."""
    return [cells.get(one.key, one.example) for one in columns]  # type: ignore[attr-defined]


BANK: Rows = [
    ["Date", "Payer", "Reference", "Amount"],
    ["2026-11-23", "Märel Otten", "I-2026-0001", "106.00"],
    ["2026-11-24", "Bank", "Fee", "-2.50"],
    ["2026-11-24", "Two Rivers Team", "deposit Q-2026-0003", "1500.00"],
    ["2026-11-25", "Unknown", "", "17.20"],
]
CUSTOMERS: Rows = [
    [one.heading for one in CUSTOMER_COLUMNS],
    _row(CUSTOMER_COLUMNS),
    [one.example if one.heading == "Customer" else "" for one in CUSTOMER_COLUMNS],
]
BILLS: Rows = [
    [one.heading for one in BILL_COLUMNS],
    _row(BILL_COLUMNS, build=""),
    _row(BILL_COLUMNS, build="", number="8842", description="Gasket set", net="80.00", tax=""),
]
EVIDENCE: Rows = [
    [one.heading for one in EVIDENCE_COLUMNS],
    _row(EVIDENCE_COLUMNS, seen_good_at=""),
    _row(EVIDENCE_COLUMNS, seen_good_at="", engine="H4-19023", outcome="failed", amount="5200"),
]
LIVES = {
    "component": "clutch_friction",
    "type_code": "four600",
    "engine": "H4-19022",
    "on": "2025-11-25",
    "unit": "miles",
    "duty": "endurance",
    "tier": "refresh",
    "source": "bench book 7",
    "failures": [4000, 5200],
    "suspensions": [6000],
    "intervals": [[3000, 4500]],
}


def as_csv(rows: Rows) -> bytes:
    return delimited(rows, ",", "utf-8")
