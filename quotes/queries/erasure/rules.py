"""Where a person stands, model by model. A new one of these needs a line here; what is in no line stays.

`named` are columns that get the words which stand in for him, where they hold anything; `emptied` are
emptied; `texts` and `sheets` lose his words and keep the rest. Papers are deleted and, where somebody asks
for one, drawn anew from what the sheet still says; photos become an empty picture.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from django.utils.translation import gettext_lazy as _

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

Stays = Literal["never", "with the yes", "with the books"]


@dataclass(frozen=True, slots=True)
class Rule:
    """One model. `says` is what goes of it, `stays` what it is kept with, `yes` the way to its yes."""

    model: str
    says: StrOrPromise
    many: StrOrPromise
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
    Rule("enquiry", _("caller, payer and notes"), _("enquiries"),
         emptied=("caller", "who_pays", "symptoms", "class_rules", "note", "dropped_because", "search_key"),
         sheets=("request", "said")),
    Rule("booking", _("who agreed to the terms"), _("bookings"), YES, "enquiry__quote__accepted_at",
         named=("authority_name", "terms_agreed_by"), texts=("cancelled_because",), sheets=("sheet",)),
    Rule("quote", _("notes, and who signed against advice"), _("quotes"), YES, "accepted_at",
         emptied=("note",), sheets=("request",)),
    Rule("revision", _("name and address in the sheet, its papers"), _("issued revisions"), YES,
         "quote__accepted_at", sheets=("sheet", "request"), papers=("pdf", "workbook")),
    Rule("reply", _("who asked or said no, and what"), _("questions and answers"), YES,
         "revision__quote__accepted_at", named=("name",), emptied=("text",), texts=("answer",)),
    Rule("engine", _("notes"), _("engines"), emptied=("note",)),
    Rule("lifedpart", _("notes"), _("lifed parts"), texts=("note",)),
    Rule("servicereport", _("who reported it"), _("reports of service"), named=("name",), emptied=("note",)),
    Rule("reminder", _("the text sent"), _("reminders"), named=("words",)),
    Rule("failurereport", _("his words in it"), _("failure reports"),
         texts=("words", "evidence", "settlement")),
    Rule("acceptance", _("who said yes"), _("builds agreed to"), YES, "quote__accepted_at", named=("name",),
         emptied=("right", "telephone"), papers=("receipt",)),
    Rule("calledoff", _("who called it off"), _("builds called off"), YES, BUILD, named=("said_by",),
         emptied=("reason",)),
    Rule("extrawork", _("who answered"), _("offers of extra work"), YES, BUILD, named=("answered_by",),
         emptied=("answer_note",)),
    Rule("serviceoutcome", _("who told of it"), _("services told of"), named=("told_by",), emptied=("note",)),
    Rule("job", _("who brought it"), _("jobs"), YES, "quote__accepted_at", named=("brought_by",),
         emptied=("right_to_hand_over",), texts=("symptoms", "use_note", "missing", "hold_because")),
    Rule("jobstep", _("his words in notes"), _("steps of a job"), YES, JOB, texts=("note",)),
    Rule("intakereceipt", _("name in the receipt, its paper"), _("intake receipts"), YES, JOB,
         sheets=("sheet",), papers=("pdf",)),
    Rule("teardownleave", _("who gave it, its paper"), _("leaves to strip"), YES, JOB, named=("name",),
         emptied=("right", "telephone"), sheets=("sheet",), papers=("pdf",)),
    Rule("teardowndeclined", _("who said no"), _("strip-downs declined"), YES, JOB, named=("name",),
         emptied=("telephone",), texts=("words",)),
    Rule("photo", _("the picture"), _("photos without a build"), YES, JOB, texts=("words",),
         photos=("image", "small")),
    Rule("findingsreport", _("name in the report, its paper"), _("findings reports"), YES, JOB,
         sheets=("sheet",), papers=("pdf",)),
    Rule("declinedadvice", _("who declined"), _("advice declined"), YES, JOB, named=("said_by",)),
    Rule("assemblyrecord", _("name in the record, its paper"), _("assembly records"), YES, JOB,
         sheets=("sheet",), papers=("pdf",)),
    Rule("release", _("to whom it was given, its papers"), _("hand-overs"), YES, JOB, named=("released_to",),
         emptied=("shown",), sheets=("sheet",), papers=("pdf", "card")),
    Rule("workedagain", _("who signed against advice"), _("scopes worked out again"), YES, JOB,
         sheets=("request", "option"), way="job__customer"),
    Rule("invoicedraft", _("his words in it"), _("drafts of invoices"), BOOKS, sheets=("content",)),
    Rule("invoice", _("name and address, its papers"), _("invoices and credit notes"), BOOKS,
         emptied=("consent", "earlier_because"), sheets=("sheet",), photos=("pdf", "xml")),
    Rule("payment", _("reference and note, its receipt"), _("payments"), BOOKS,
         emptied=("reference", "note"), papers=("receipt",)),
    Rule("writeoff", _("his words in the reason"), _("write-offs"), BOOKS, texts=("reason",)),
    Rule("paymentreminder", _("name and address, its paper"), _("payment reminders"), BOOKS,
         sheets=("sheet",), papers=("pdf",)),
    Rule("remindersent", _("to which address, and what shows it"), _("sendings of reminders"), BOOKS,
         named=("to",), emptied=("proof",)),
    Rule("journalentry", _("name"), _("journal entries"), BOOKS, named=("party",), texts=("text",)),
    Rule("bankline", _("who paid, and the text"), _("bank lines"), BOOKS, named=("payer",),
         emptied=("text", "note")),
)  # fmt: skip
