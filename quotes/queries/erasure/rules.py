"""Where a person stands, model by model. A new one of these needs a line here; what is in no line stays.

`named` are columns that get the words which stand in for him, where they hold anything; `emptied` are
emptied; `texts` and `sheets` lose his words and keep the rest. Papers are deleted and, where somebody asks
for one, drawn anew from what the sheet still says; photos become an empty picture.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Stays = Literal["never", "with the yes", "with the books"]


@dataclass(frozen=True, slots=True)
class Rule:
    """One model. `says` is what goes of it, `stays` what it is kept with, `yes` the way to its yes."""

    model: str
    says: str
    many: str
    stays: Stays = "never"
    yes: str = ""
    named: tuple[str, ...] = ()
    emptied: tuple[str, ...] = ()
    texts: tuple[str, ...] = ()
    sheets: tuple[str, ...] = ()
    papers: tuple[str, ...] = ()
    photos: tuple[str, ...] = ()
    way: str = ""
    """The way to the customer, where it is not among those of what is held on him."""

    @property
    def columns(self) -> tuple[str, ...]:
        """Every column in which he may stand."""
        return (*self.named, *self.emptied, *self.texts, *self.sheets)


JOB, BUILD = "job__quote__accepted_at", "build__quote__accepted_at"
YES: Stays = "with the yes"
BOOKS: Stays = "with the books"

RULES: tuple[Rule, ...] = (
    Rule("enquiry", "caller, payer and notes", "enquiries",
         emptied=("caller", "who_pays", "symptoms", "class_rules", "note", "dropped_because", "search_key"),
         sheets=("request", "said")),
    Rule("booking", "who agreed to the terms", "bookings", YES, "enquiry__quote__accepted_at",
         named=("authority_name", "terms_agreed_by"), texts=("cancelled_because",), sheets=("sheet",)),
    Rule("quote", "notes, and who signed against advice", "quotes", YES, "accepted_at",
         emptied=("note",), sheets=("request",)),
    Rule("revision", "name and address in the sheet, its papers", "issued revisions", YES,
         "quote__accepted_at", sheets=("sheet", "request"), papers=("pdf", "workbook")),
    Rule("reply", "who asked or said no, and what", "questions and answers", YES,
         "revision__quote__accepted_at", named=("name",), emptied=("text",), texts=("answer",)),
    Rule("engine", "notes", "engines", emptied=("note",)),
    Rule("lifedpart", "notes", "lifed parts", texts=("note",)),
    Rule("servicereport", "who reported it", "reports of service", named=("name",), emptied=("note",)),
    Rule("reminder", "the text sent", "reminders", named=("words",)),
    Rule("failurereport", "his words in it", "failure reports",
         texts=("words", "evidence", "settlement")),
    Rule("acceptance", "who said yes", "builds agreed to", YES, "quote__accepted_at", named=("name",),
         emptied=("right", "telephone"), papers=("receipt",)),
    Rule("calledoff", "who called it off", "builds called off", YES, BUILD, named=("said_by",),
         emptied=("reason",)),
    Rule("extrawork", "who answered", "offers of extra work", YES, BUILD, named=("answered_by",),
         emptied=("answer_note",)),
    Rule("serviceoutcome", "who told of it", "services told of", named=("told_by",), emptied=("note",)),
    Rule("job", "who brought it", "jobs", YES, "quote__accepted_at", named=("brought_by",),
         emptied=("right_to_hand_over",), texts=("symptoms", "use_note", "missing", "hold_because")),
    Rule("jobstep", "his words in notes", "steps of a job", YES, JOB, texts=("note",)),
    Rule("intakereceipt", "name in the receipt, its paper", "intake receipts", YES, JOB,
         sheets=("sheet",), papers=("pdf",)),
    Rule("teardownleave", "who gave it, its paper", "leaves to strip", YES, JOB, named=("name",),
         emptied=("right", "telephone"), sheets=("sheet",), papers=("pdf",)),
    Rule("teardowndeclined", "who said no", "strip-downs declined", YES, JOB, named=("name",),
         emptied=("telephone",), texts=("words",)),
    Rule("photo", "the picture", "photos without a build", YES, JOB, texts=("words",),
         photos=("image", "small")),
    Rule("findingsreport", "name in the report, its paper", "findings reports", YES, JOB,
         sheets=("sheet",), papers=("pdf",)),
    Rule("declinedadvice", "who declined", "advice declined", YES, JOB, named=("said_by",)),
    Rule("assemblyrecord", "name in the record, its paper", "assembly records", YES, JOB,
         sheets=("sheet",), papers=("pdf",)),
    Rule("release", "to whom it was given, its papers", "hand-overs", YES, JOB, named=("released_to",),
         emptied=("shown",), sheets=("sheet",), papers=("pdf", "card")),
    Rule("workedagain", "who signed against advice", "scopes worked out again", YES, JOB,
         sheets=("request", "option"), way="job__customer"),
    Rule("invoicedraft", "his words in it", "drafts of invoices", BOOKS, sheets=("content",)),
    Rule("invoice", "name and address, its papers", "invoices and credit notes", BOOKS,
         emptied=("consent",), sheets=("sheet",), photos=("pdf", "xml")),
    Rule("payment", "reference and note, its receipt", "payments", BOOKS,
         emptied=("reference", "note"), papers=("receipt",)),
    Rule("writeoff", "his words in the reason", "write-offs", BOOKS, texts=("reason",)),
    Rule("journalentry", "name", "journal entries", BOOKS, named=("party",), texts=("text",)),
    Rule("bankline", "who paid, and the text", "bank lines", BOOKS, named=("payer",),
         emptied=("text", "note")),
)  # fmt: skip
