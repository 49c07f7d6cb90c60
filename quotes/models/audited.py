"""Which models the record of changes tells of, and which not and why.

Every model stands in one of the two: a test walks them all. To tell of a new one, a line in `AUDITED`.
"""

from __future__ import annotations

from typing import NamedTuple

from catalogue.calc.said import to_say


class ToldOf(NamedTuple):
    """How a model is told of."""

    words: str
    """What one of it is called."""
    under: str = ""
    """The way from a row to the key of the record that it belongs to."""
    under_type: str = ""
    """That record's type."""


def _job(words: str) -> ToldOf:
    return ToldOf(words, "job_id", "quotes.job")


def _build(words: str) -> ToldOf:
    return ToldOf(words, "build_id", "quotes.acceptance")


def _customer(words: str) -> ToldOf:
    return ToldOf(words, "customer_id", "quotes.customer")


def _engine(words: str) -> ToldOf:
    return ToldOf(words, "engine_id", "quotes.engine")


def _quote(words: str) -> ToldOf:
    return ToldOf(words, "quote_id", "quotes.quote")


def _setting(words: str) -> ToldOf:
    return ToldOf(words, "1", "quotes.workshop")


_CODES = ("quotes.telephone", "otp_totp.totpdevice")
"""The same rows: as the site knows them, and as django-otp does, of which older entries tell."""
AUDITED: dict[str, ToldOf] = {
    "auth.user": ToldOf(to_say("person")),
    **dict.fromkeys(_CODES, ToldOf(to_say("one-time codes"), "user_id", "auth.user")),
    "otp_static.staticdevice": ToldOf(to_say("recovery codes"), "user_id", "auth.user"),
    "quotes.signin": ToldOf(to_say("sign-in"), "user_id", "auth.user"),
    "quotes.invitation": ToldOf(to_say("invitation")),
    "catalogue.lifechange": ToldOf(to_say("approved life"), "component", "catalogue.component"),
    "catalogue.pricelist": ToldOf(to_say("price list"), "supplier_id", "catalogue.supplier"),
    "catalogue.listterms": ToldOf(to_say("terms of price lists"), "supplier_id", "catalogue.supplier"),
    "catalogue.exchangerate": ToldOf(to_say("exchange rate")),
    "quotes.customer": ToldOf(to_say("customer")),
    "quotes.customerfile": ToldOf(to_say("file of customers")),
    "quotes.cataloguefile": ToldOf(to_say("workbook of the catalogue")),
    "quotes.erasure": _customer(to_say("erasure")),
    "quotes.engine": _customer(to_say("engine")),
    "quotes.segment": _engine(to_say("stretch of service")),
    "quotes.renewedpart": _engine(to_say("renewed part")),
    "quotes.lifedpart": ToldOf(to_say("lifed part"), "owner_id", "quotes.customer"),
    "quotes.partstay": _engine(to_say("stay of a lifed part")),
    "quotes.enquiry": _customer(to_say("enquiry")),
    "quotes.booking": ToldOf(to_say("booking"), "enquiry_id", "quotes.enquiry"),
    "quotes.quote": _customer(to_say("quote")),
    "quotes.revision": _quote(to_say("issued revision")),
    "quotes.link": _quote(to_say("customer's link")),
    "quotes.reply": ToldOf(to_say("customer's reply"), "revision.quote_id", "quotes.quote"),
    "quotes.acceptance": _quote(to_say("build")),
    "quotes.extrawork": _build(to_say("extra work")),
    "quotes.calledoff": _build(to_say("calling off")),
    "quotes.core": _build(to_say("core")),
    "quotes.ownpart": _build(to_say("customer's own part")),
    "quotes.stockuse": _build(to_say("use of stock")),
    "quotes.serviceoutcome": _build(to_say("how a service went")),
    "quotes.workedhours": _build(to_say("hours worked")),
    "quotes.job": _engine(to_say("job")),
    "quotes.jobstep": _job(to_say("step of a job")),
    "quotes.teardownleave": _job(to_say("leave to strip down")),
    "quotes.teardowndeclined": _job(to_say("strip-down declined")),
    "quotes.intakereceipt": _job(to_say("intake receipt")),
    "quotes.photo": _job(to_say("photo")),
    "quotes.measured": _job(to_say("reading")),
    "quotes.findingseen": _job(to_say("finding")),
    "quotes.findingsreport": _job(to_say("findings report")),
    "quotes.workedagain": _job(to_say("scope worked out again")),
    "quotes.declinedadvice": _job(to_say("declined advice")),
    "quotes.clockrun": _job(to_say("clock")),
    "quotes.worksorder": _job(to_say("works order")),
    "quotes.assemblyentry": _job(to_say("entry of the assembly record")),
    "quotes.concession": _job(to_say("concession")),
    "quotes.assemblyrecord": _job(to_say("assembly record")),
    "quotes.testrun": _job(to_say("test")),
    "quotes.finalcheck": _job(to_say("final check")),
    "quotes.release": _job(to_say("hand-over")),
    "quotes.failurereport": _job(to_say("failure report")),
    "quotes.evidence": _job(to_say("evidence of a life")),
    "quotes.servicereport": _engine(to_say("service reported")),
    "quotes.reminder": _engine(to_say("reminder")),
    "quotes.purchaseorder": ToldOf(to_say("purchase order")),
    "quotes.orderline": ToldOf(to_say("line of an order"), "order_id", "quotes.purchaseorder"),
    "quotes.orderevent": ToldOf(to_say("delivery"), "line.order_id", "quotes.purchaseorder"),
    "quotes.substitute": ToldOf(to_say("substitute"), "line.order_id", "quotes.purchaseorder"),
    "quotes.instrument": ToldOf(to_say("instrument")),
    "quotes.manuallimit": ToldOf(to_say("limit from a manual"), "limit_code", "catalogue.limit"),
    "quotes.invoicedraft": _customer(to_say("draft of an invoice")),
    "quotes.invoice": _customer(to_say("invoice")),
    "quotes.payment": _customer(to_say("payment")),
    "quotes.writeoff": _customer(to_say("write-off")),
    "quotes.paymentreminder": _customer(to_say("payment reminder")),
    "quotes.remindersent": ToldOf(to_say("sending of a reminder"), "reminder.customer_id", "quotes.customer"),
    "quotes.openitem": _customer(to_say("open item")),
    "quotes.allocation": ToldOf(to_say("allocation"), "debit.invoice_id", "quotes.invoice"),
    "quotes.supplierbill": ToldOf(to_say("supplier's bill")),
    "quotes.billline": ToldOf(to_say("line of a bill"), "bill_id", "quotes.supplierbill"),
    "quotes.billpayment": ToldOf(to_say("payment of a bill"), "bill_id", "quotes.supplierbill"),
    "quotes.journalentry": ToldOf(to_say("journal entry"), "invoice_id", "quotes.invoice"),
    "quotes.journalline": ToldOf(to_say("journal line"), "entry_id", "quotes.journalentry"),
    "quotes.exportbatch": ToldOf(to_say("export of the journal")),
    "quotes.monthlock": ToldOf(to_say("closed month")),
    "quotes.bankfile": ToldOf(to_say("bank file")),
    "quotes.bankline": ToldOf(to_say("bank line"), "file_id", "quotes.bankfile"),
    "quotes.storedfile": ToldOf(to_say("stored file")),
    "quotes.workshop": ToldOf(to_say("settings")),
    "quotes.shopfactorchange": _setting(to_say("change of the shop factor")),
    "quotes.labourrate": _setting(to_say("labour rate")),
    "quotes.markupband": _setting(to_say("markup")),
    "quotes.classrule": _setting(to_say("class")),
    "quotes.closedday": _setting(to_say("closed days")),
    "quotes.taxcode": _setting(to_say("tax code")),
    "quotes.taxcomponent": _setting(to_say("part of a tax")),
    "quotes.taxrate": _setting(to_say("tax rate")),
    "quotes.bookssettings": _setting(to_say("settings of the books")),
    "quotes.booksaccount": _setting(to_say("account")),
    "quotes.bookingterms": _setting(to_say("terms of booking")),
    "quotes.slotdeposit": _setting(to_say("deposit for a slot")),
    "quotes.teardownprice": _setting(to_say("price of a strip-down")),
    "quotes.runninginrule": _setting(to_say("running-in rule")),
}
"""By the model's label in small letters, which is the entry's `record_type`."""

_CARD = "a part of a catalogue card: each changed card has one entry (catalogue.actions.changed)"
_LISTED = "a row of a price list: the list is told of, with its counts and fingerprint"
_AXES = "wrong passwords as they are tried, swept after a while: no change of a right"
_DJANGO = "Django's own list of what there is; nobody changes it"

LEFT_OUT: dict[str, str] = {
    "quotes.erasedrow": "what an erasure did, row by row: the erasure itself is told of",
    "auth.permission": _DJANGO,
    "auth.group": "four names; who has which role is told of with the person",
    "contenttypes.contenttype": _DJANGO,
    "sessions.session": "its key is a secret; the sign-in that it belongs to is told of",
    "otp_static.statictoken": "a secret, made and used up with its set, which is told of",
    "axes.accessattempt": _AXES,
    "axes.accessattemptexpiration": _AXES,
    "axes.accessfailurelog": _AXES,
    "axes.accesslog": _AXES,
    "catalogue.catalogueversion": "counts changes that are told of",
    "catalogue.change": "the catalogue's own list of changes, which the entries are made of",
    "catalogue.ownvalue": "which fields were changed by hand; told of with the card",
    "catalogue.listedpart": _LISTED,
    "catalogue.listedprice": _LISTED,
    "catalogue.heldprice": "told of with its price list, which counts the owner's yes",
    "quotes.auditentry": "the record itself",
    "quotes.auditwords": "the record itself",
    "quotes.audithead": "the record itself",
    "quotes.backgroundwork": "that something is to be done; what it does is told of as it does it",
    "django_tasks_database.dbtaskresult": "the queue of that work",
    "quotes.bankcolumns": "how a file was read last, to suggest it for the next",
    "quotes.counter": "counts numbers; the documents that bear them are told of, and `verify` looks for gaps",
    "quotes.sentform": "which forms were sent already, so that one sent twice has one effect",
    "quotes.allowance": "counts what may be done only so often, swept after a day: no change of a right",
}
EVERYTHING = "everything"
"""The record type of an entry that says that all rows went, as when sample data is taken out."""
CARDS = "catalogue."
"""Every other model of the catalogue is a card or a part of one."""

SECRET: dict[str, frozenset[str]] = {
    "auth.user": frozenset({"password"}),
    **dict.fromkeys(_CODES, frozenset({"key"})),
    "quotes.signin": frozenset({"session"}),
    "quotes.link": frozenset({"token_hash"}),
    "quotes.invitation": frozenset({"token_hash"}),
}
"""Values that are never written down: only that they changed."""
NOT_SHOWN = to_say("(not shown)")
"""What stands in their place."""

PASSED_OVER: dict[str, frozenset[str]] = {
    "auth.user": frozenset({"last_login", "date_joined"}),
    **dict.fromkeys(
        _CODES,
        frozenset(
            {"last_t", "drift", "last_used_at", "created_at", "throttling_failure_count"}
            | {"throttling_failure_timestamp", "step", "t0", "digits", "tolerance"}
        ),
    ),
    "otp_static.staticdevice": frozenset(
        {"last_used_at", "created_at", "throttling_failure_count", "throttling_failure_timestamp"}
    ),
    "quotes.quote": frozenset({"stands_until"}),
    "quotes.invoicedraft": frozenset({"issued_on"}),
    "quotes.signin": frozenset({"last_used"}),
    "quotes.storedfile": frozenset({"held", "place"}),
    "quotes.customerfile": frozenset({"held", "place"}),
    "quotes.cataloguefile": frozenset({"held", "place"}),
    "quotes.exportbatch": frozenset({"lines_done"}),
    "catalogue.pricelist": frozenset({"held", "place", "first_lines", "found", "reading"}),
    "catalogue.listterms": frozenset({"reading"}),
}
"""What says nothing of the record: bytes that a fingerprint stands for, counts of use, what stands twice."""
PASSED_OVER_EVERYWHERE = frozenset({"id", "search_key", "sheet", "key", "card_key", "version"})
"""Keys, and sheets that a fingerprint stands for."""


def passed_over(label: str) -> frozenset[str]:
    """Fields of a model that are not told of."""
    ours = label.startswith(("quotes.", CARDS))
    return PASSED_OVER.get(label, frozenset()) | (PASSED_OVER_EVERYWHERE if ours else {"id"})


def left_out_because(label: str) -> str:
    """Why a model is not told of; nothing where no reason stands."""
    if label in LEFT_OUT or label in AUDITED or not label.startswith(CARDS):
        return LEFT_OUT.get(label, "")
    return _CARD
