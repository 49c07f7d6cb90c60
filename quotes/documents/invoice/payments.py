"""The papers about payments: the receipt of one, a statement of account, a reminder of what is overdue."""

from __future__ import annotations

from django.template.loader import render_to_string

from quotes.calc.books.papers import PaymentReceipt, ReminderPaper, StatementPaper
from quotes.documents.invoice.receipt import receipt_context
from quotes.documents.invoice.reminder import reminder_context
from quotes.documents.invoice.statement import statement_context
from quotes.documents.pdf import printed
from quotes.documents.speech import paper_in


def payment_receipt_pdf(receipt: PaymentReceipt) -> bytes:
    """What was paid, how, and what it settles; the same bytes each time."""
    template = "documents/invoice/receipt.html"
    return _drawn(paper_in(receipt.language, template, lambda: receipt_context(receipt)), receipt.paper)


def statement_pdf(statement: StatementPaper) -> bytes:
    """A customer's account over a period, what is still open, and how to pay; the same bytes each time."""
    template = "documents/invoice/statement.html"
    return _drawn(
        paper_in(statement.language, template, lambda: statement_context(statement)), statement.paper
    )


def reminder_pdf(reminder: ReminderPaper) -> bytes:
    """What is overdue, and by when to pay it; the same bytes each time."""
    template = "documents/invoice/reminder.html"
    return _drawn(paper_in(reminder.language, template, lambda: reminder_context(reminder)), reminder.paper)


def _drawn(html: str, paper: str) -> bytes:
    parts = [f"@page {{ size: {paper}; }}"]
    parts += [render_to_string(f"documents/{name}.css") for name in ("paper", "invoice/payments")]
    return printed(html, "\n".join(parts))
