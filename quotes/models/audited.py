"""Which models the record of changes tells of, and which not and why.

Every model stands in one of the two: a test walks them all. To tell of a new one, a line in `AUDITED`.
"""

from __future__ import annotations

from typing import NamedTuple


class Told(NamedTuple):
    """How a model is told of."""

    words: str
    """What one of it is called."""
    under: str = ""
    """The way from a row to the key of the record that it belongs to."""
    under_type: str = ""
    """That record's type."""


def _job(words: str) -> Told:
    return Told(words, "job_id", "quotes.job")


def _build(words: str) -> Told:
    return Told(words, "build_id", "quotes.acceptance")


def _customer(words: str) -> Told:
    return Told(words, "customer_id", "quotes.customer")


def _engine(words: str) -> Told:
    return Told(words, "engine_id", "quotes.engine")


def _quote(words: str) -> Told:
    return Told(words, "quote_id", "quotes.quote")


def _setting(words: str) -> Told:
    return Told(words, "1", "quotes.workshop")


AUDITED: dict[str, Told] = {
    "auth.user": Told("person"),
    "otp_totp.totpdevice": Told("one-time codes", "user_id", "auth.user"),
    "otp_static.staticdevice": Told("recovery codes", "user_id", "auth.user"),
    "quotes.signin": Told("sign-in", "user_id", "auth.user"),
    "quotes.invitation": Told("invitation"),
    "catalogue.lifechange": Told("approved life", "component", "catalogue.component"),
    "quotes.customer": Told("customer"),
    "quotes.customerfile": Told("file of customers"),
    "quotes.erasure": _customer("erasure"),
    "quotes.engine": _customer("engine"),
    "quotes.segment": _engine("stretch of service"),
    "quotes.renewedpart": _engine("renewed part"),
    "quotes.lifedpart": Told("lifed part", "owner_id", "quotes.customer"),
    "quotes.partstay": _engine("stay of a lifed part"),
    "quotes.enquiry": _customer("enquiry"),
    "quotes.booking": Told("booking", "enquiry_id", "quotes.enquiry"),
    "quotes.quote": _customer("quote"),
    "quotes.revision": _quote("issued revision"),
    "quotes.link": _quote("customer's link"),
    "quotes.reply": Told("customer's reply", "revision.quote_id", "quotes.quote"),
    "quotes.acceptance": _quote("build"),
    "quotes.extrawork": _build("extra work"),
    "quotes.calledoff": _build("calling off"),
    "quotes.core": _build("core"),
    "quotes.ownpart": _build("customer's own part"),
    "quotes.stockuse": _build("use of stock"),
    "quotes.serviceoutcome": _build("how a service went"),
    "quotes.workedhours": _build("hours worked"),
    "quotes.job": _engine("job"),
    "quotes.jobstep": _job("step of a job"),
    "quotes.teardownleave": _job("leave to strip down"),
    "quotes.teardowndeclined": _job("strip-down declined"),
    "quotes.intakereceipt": _job("intake receipt"),
    "quotes.photo": _job("photo"),
    "quotes.measured": _job("reading"),
    "quotes.findingseen": _job("finding"),
    "quotes.findingsreport": _job("findings report"),
    "quotes.workedagain": _job("scope worked out again"),
    "quotes.declinedadvice": _job("declined advice"),
    "quotes.clockrun": _job("clock"),
    "quotes.worksorder": _job("works order"),
    "quotes.assemblyentry": _job("entry of the assembly record"),
    "quotes.concession": _job("concession"),
    "quotes.assemblyrecord": _job("assembly record"),
    "quotes.testrun": _job("test"),
    "quotes.finalcheck": _job("final check"),
    "quotes.release": _job("hand-over"),
    "quotes.failurereport": _job("failure report"),
    "quotes.evidence": _job("evidence of a life"),
    "quotes.servicereport": _engine("service reported"),
    "quotes.reminder": _engine("reminder"),
    "quotes.purchaseorder": Told("purchase order"),
    "quotes.orderline": Told("line of an order", "order_id", "quotes.purchaseorder"),
    "quotes.orderevent": Told("delivery", "line.order_id", "quotes.purchaseorder"),
    "quotes.substitute": Told("substitute", "line.order_id", "quotes.purchaseorder"),
    "quotes.instrument": Told("instrument"),
    "quotes.manuallimit": Told("limit from a manual", "limit_code", "catalogue.limit"),
    "quotes.invoicedraft": _customer("draft of an invoice"),
    "quotes.invoice": _customer("invoice"),
    "quotes.payment": _customer("payment"),
    "quotes.writeoff": _customer("write-off"),
    "quotes.openitem": _customer("open item"),
    "quotes.allocation": Told("allocation", "debit.invoice_id", "quotes.invoice"),
    "quotes.supplierbill": Told("supplier's bill"),
    "quotes.billline": Told("line of a bill", "bill_id", "quotes.supplierbill"),
    "quotes.billpayment": Told("payment of a bill", "bill_id", "quotes.supplierbill"),
    "quotes.journalentry": Told("journal entry", "invoice_id", "quotes.invoice"),
    "quotes.journalline": Told("journal line", "entry_id", "quotes.journalentry"),
    "quotes.exportbatch": Told("export of the journal"),
    "quotes.monthlock": Told("closed month"),
    "quotes.bankfile": Told("bank file"),
    "quotes.bankline": Told("bank line", "file_id", "quotes.bankfile"),
    "quotes.storedfile": Told("stored file"),
    "quotes.workshop": Told("settings"),
    "quotes.shopfactorchange": _setting("change of the shop factor"),
    "quotes.labourrate": _setting("labour rate"),
    "quotes.markupband": _setting("markup"),
    "quotes.classrule": _setting("class"),
    "quotes.closedday": _setting("closed days"),
    "quotes.taxcode": _setting("tax code"),
    "quotes.taxcomponent": _setting("part of a tax"),
    "quotes.taxrate": _setting("tax rate"),
    "quotes.bookssettings": _setting("settings of the books"),
    "quotes.booksaccount": _setting("account"),
    "quotes.bookingterms": _setting("terms of booking"),
    "quotes.slotdeposit": _setting("deposit for a slot"),
    "quotes.teardownprice": _setting("price of a strip-down"),
    "quotes.runninginrule": _setting("running-in rule"),
}
"""By the model's label in small letters, which is the entry's `record_type`."""

_CARD = "a part of a catalogue card: each changed card has one entry (catalogue.actions.changed)"
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
    "quotes.auditentry": "the record itself",
    "quotes.auditwords": "the record itself",
    "quotes.audithead": "the record itself",
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
    "otp_totp.totpdevice": frozenset({"key"}),
    "quotes.signin": frozenset({"session"}),
    "quotes.link": frozenset({"token_hash"}),
    "quotes.invitation": frozenset({"token_hash"}),
}
"""Values that are never written down: only that they changed."""
NOT_SHOWN = "(not shown)"
"""What stands in their place."""

PASSED_OVER: dict[str, frozenset[str]] = {
    "auth.user": frozenset({"last_login", "date_joined"}),
    "otp_totp.totpdevice": frozenset(
        {"last_t", "drift", "last_used_at", "created_at", "throttling_failure_count"}
        | {"throttling_failure_timestamp", "step", "t0", "digits", "tolerance"}
    ),
    "otp_static.staticdevice": frozenset(
        {"last_used_at", "created_at", "throttling_failure_count", "throttling_failure_timestamp"}
    ),
    "quotes.signin": frozenset({"last_used"}),
    "quotes.storedfile": frozenset({"content"}),
    "quotes.customerfile": frozenset({"content"}),
    "quotes.exportbatch": frozenset({"lines_done"}),
}
"""What says nothing of the record: bytes that a fingerprint stands for, and counts of use."""
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
