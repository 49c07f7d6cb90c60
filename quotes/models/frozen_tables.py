"""Which tables the database itself keeps from change and deletion, and what of them is filled in later."""

from __future__ import annotations

from quotes.models import audit_triggers

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
        "earlier_because",
        "pdf_id",
        "xml_id",
    ),
    "quotes_payment": (
        "kind",
        "number",
        "customer_id",
        "build_id",
        "job_id",
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
        "touches",
        "stops",
        "components",
        "rider_safety",
        "old_gross",
        "new_gross",
        "old_ready_on",
        "new_ready_on",
        "photo_id",
        "finding_id",
        "offered_at",
        "offered_by_id",
    ),
    "quotes_calledoff": ("build_id", "reason", "said_by", "on", "at", "by_id"),
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
        "OLD.state <> 'offered'",
    ),
    ("quotes_supplierbill", "taken_back", ("taken_back_at",), "OLD.taken_back_at IS NOT NULL"),
    ("quotes_journalentry", "batched", ("batch_id",), "OLD.batch_id IS NOT NULL"),
    (
        "quotes_exportbatch",
        "ready",
        ("state", "controls", "workbook_id", "csv_id", "ready_at"),
        "OLD.state = 'ready'",
    ),
)
"""Columns that are filled in once, by table: extra work with its answer, a bill with the moment
when it was taken back, an entry with the batch that it left in, a batch with its files."""


BENCH: dict[str, frozenset[str]] = {
    "quotes_revision": frozenset({"pdf_id", "workbook_id"}),
    "quotes_acceptance": frozenset({"receipt_id", "done_at", "done_by", "invoiced_at"}),
    "quotes_storedfile": frozenset(),
    "quotes_jobstep": frozenset(),
    "quotes_teardownleave": frozenset({"pdf_id"}),
    "quotes_intakereceipt": frozenset({"pdf_id"}),
    "quotes_teardowndeclined": frozenset(),
    "quotes_photo": frozenset(),
    "quotes_manuallimit": frozenset({"until", "until_by"}),
    "quotes_measured": frozenset(),
    "quotes_findingseen": frozenset({"withdrawn_at", "withdrawn_by", "withdrawn_because"}),
    "quotes_findingsreport": frozenset({"pdf_id"}),
    "quotes_workedagain": frozenset({"extra_work_id"}),
    "quotes_declinedadvice": frozenset(),
    "quotes_purchaseorder": frozenset({"pdf_id", "csv_id", "done_at"}),
    "quotes_orderline": frozenset(),
    "quotes_orderevent": frozenset(),
    "quotes_ownpart": frozenset(),
    "quotes_assemblyentry": frozenset(),
    "quotes_concession": frozenset(),
    "quotes_assemblyrecord": frozenset({"pdf_id"}),
    "quotes_testrun": frozenset(),
    "quotes_finalcheck": frozenset(),
    "quotes_release": frozenset({"pdf_id", "card_id"}),
    "quotes_servicereport": frozenset(),
    "quotes_paymentreminder": frozenset({"pdf_id"}),
    "quotes_remindersent": frozenset(),
    "quotes_failurereport": frozenset(),
    "quotes_evidence": frozenset({"withdrawn_at", "withdrawn_by", "withdrawn_because"}),
    "catalogue_lifechange": frozenset(),
    "quotes_serviceoutcome": frozenset({"withdrawn_at", "withdrawn_by", "withdrawn_because"}),
    "quotes_shopfactorchange": frozenset(),
    "quotes_erasure": frozenset(),
    "quotes_erasedrow": frozenset(),
    audit_triggers.ENTRY: frozenset(),
}
"""What was issued and agreed to, tables of the bench, lives approved on its record, the record of changes,
reminders: every column is kept but those that are filled in later."""


STAY = (audit_triggers.WORDS, audit_triggers.HEAD)
"""Tables whose rows are not deleted, and whose changes have triggers of their own."""


THROWN_AWAY = {"quotes_storedfile": "WHEN (OLD.content_type <> 'text/csv')"}
"""A bank's file of which nothing was taken in may be; one that something rests on is held by its key."""


ALL = (*FROZEN, *BENCH, *STAY)
