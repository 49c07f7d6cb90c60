"""The SQL by which the database itself keeps issued rows of the books from change and deletion.

The migration that sets the triggers uses it. So does the flush between tests on SQLite, which empties tables
by deleting rows, where PostgreSQL truncates them and no trigger hears of it.
"""

from __future__ import annotations

FROZEN = {
    "quotes_invoice": (
        "kind",
        "number",
        "customer_id",
        "build_id",
        "original_id",
        "draft_id",
        "sheet",
        "sheet_sha256",
        "issued_on",
        "issued_at",
        "issued_by_id",
        "due_on",
        "currency",
        "net",
        "tax",
        "gross",
        "prepaid",
        "due",
        "consent",
        "pdf_id",
        "xml_id",
    ),
    "quotes_payment": (
        "kind",
        "number",
        "customer_id",
        "build_id",
        "deposit",
        "on",
        "amount",
        "currency",
        "method",
        "reference",
        "note",
        "reverses_id",
        "key",
        "taken_by_id",
        "taken_at",
    ),
    "quotes_writeoff": ("number", "customer_id", "on", "amount", "reason", "by_id", "at"),
    "quotes_allocation": ("debit_id", "credit_id", "amount", "on", "at", "by"),
    "quotes_journalentry": (
        "on",
        "source",
        "number",
        "party",
        "text",
        "invoice_id",
        "payment_id",
        "write_off_id",
        "bill_id",
        "total",
        "posted_at",
        "posted_by",
    ),
    "quotes_journalline": (
        "entry_id",
        "order",
        "role",
        "account",
        "account_name",
        "debit",
        "credit",
        "text",
        "tax_code",
        "rate_pct",
        "build_id",
    ),
    "quotes_supplierbill": (
        "number",
        "supplier",
        "supplier_number",
        "on",
        "due_on",
        "net",
        "tax",
        "gross",
        "note",
        "entered_by_id",
        "entered_at",
        "reverses_id",
    ),
    "quotes_billline": ("bill_id", "order", "kind", "description", "net", "build_id"),
    "quotes_billpayment": ("bill_id", "on", "method", "paid_by_id", "paid_at"),
    "quotes_stockuse": ("build_id", "description", "component", "quantity", "cost", "on", "by_id", "at"),
    "quotes_extrawork": (
        "build_id",
        "index",
        "words",
        "risk_if_declined",
        "lines",
        "net",
        "tax",
        "gross",
        "offered_at",
        "offered_by_id",
    ),
    "quotes_exportbatch": (
        "number",
        "first",
        "last",
        "made_by_id",
        "made_at",
        "entries_held",
        "lines_held",
    ),
}
"""Columns that nobody changes once the row is written, by table. What is filled in later is left out."""

ONCE: tuple[tuple[str, str, tuple[str, ...], str], ...] = (
    (
        "quotes_extrawork",
        "answered",
        ("state", "answered_at", "answered_by", "answered_how", "answer_note"),
        "OLD.answered_at IS NOT NULL",
    ),
    ("quotes_journalentry", "batched", ("batch_id",), "OLD.batch_id IS NOT NULL"),
    (
        "quotes_exportbatch",
        "ready",
        ("state", "controls", "workbook_id", "csv_id", "ready_at"),
        "OLD.state = 'ready'",
    ),
)
"""Columns that are filled in once, by table: extra work with its answer, an entry with the batch that it left
in, a batch with its files."""


def freeze(vendor: str) -> list[str]:
    """Statements that set the triggers against change; `quotes_issued_for_good()` stands since 0003."""
    made = [_trigger(vendor, table, "frozen", _update(columns)) for table, columns in FROZEN.items()]
    once = [
        _trigger(vendor, table, name, _update(columns), f"WHEN ({done})")
        for table, name, columns, done in ONCE
    ]
    return [*made, *once]


def thaw(vendor: str) -> list[str]:
    dropped = [_dropped(vendor, table, "frozen") for table in FROZEN]
    return [*dropped, *(_dropped(vendor, table, name) for table, name, _, _ in ONCE)]


def keep(vendor: str) -> list[str]:
    """Statements that set the triggers against deletion."""
    return [_trigger(vendor, table, "kept", "DELETE") for table in FROZEN]


def let_go(vendor: str) -> list[str]:
    """Statements that take the triggers against deletion off."""
    return [_dropped(vendor, table, "kept") for table in FROZEN]


def _update(columns: tuple[str, ...]) -> str:
    return "UPDATE OF " + ", ".join(f'"{column}"' for column in columns)


def _trigger(vendor: str, table: str, name: str, event: str, when: str = "") -> str:
    head = f"CREATE TRIGGER {table}_{name} BEFORE {event} ON {table} FOR EACH ROW {when}"
    if vendor == "postgresql":
        return f"{head} EXECUTE FUNCTION quotes_issued_for_good()"
    return f"{head} BEGIN SELECT RAISE(ABORT, 'rows of {table} are issued for good'); END"


def _dropped(vendor: str, table: str, name: str) -> str:
    return f"DROP TRIGGER IF EXISTS {table}_{name}" + (f" ON {table}" if vendor == "postgresql" else "")
