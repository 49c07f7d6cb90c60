"""What the workshop keeps: itself, its customers and their engines, and what it promised them."""

from quotes.models.allowance import Allowance
from quotes.models.answer import Acceptance, Reply, ReplyKind
from quotes.models.audit import AuditAction, AuditEntry, AuditHead, AuditWords, ByKind
from quotes.models.background_work import BackgroundWork, WorkState
from quotes.models.bench.advice import DeclinedAdvice
from quotes.models.bench.after import Reminder, ServiceReport
from quotes.models.bench.assembly import AssemblyEntry, AssemblyRecord, Concession, Release, TestRun
from quotes.models.bench.evidence import Evidence, FailureReport, Outcome, WhoPays
from quotes.models.bench.intake import IntakeReceipt, TeardownDeclined, TeardownPrice
from quotes.models.bench.job import IfNot, Job, JobStep, Photo, PhotoAbout, ServiceKnown, Step, TeardownLeave
from quotes.models.bench.lifed_part import LifedPart, PartStay
from quotes.models.bench.outcome import ServiceEnd, ServiceOutcome, ShopFactorChange
from quotes.models.bench.parts import (
    Core,
    CoreState,
    OrderEvent,
    OrderEventKind,
    OrderLine,
    OwnPart,
    PurchaseOrder,
    Substitute,
)
from quotes.models.bench.report import FindingsReport, WorkedAgain
from quotes.models.bench.teardown import (
    FindingSeen,
    Instrument,
    Judged,
    ManualLimit,
    Measured,
    ReadWhen,
    Verdict,
)
from quotes.models.bench.way_out import FinalCheck, RunningInRule
from quotes.models.bench.work import ClockRun, TakesOff, WorksOrder
from quotes.models.booking import Authority, Booking, BookingTerms, OldParts, SaidHow, SlotDeposit
from quotes.models.books.bank import BankColumns, BankFile, BankLine, BankLineState
from quotes.models.books.bill import BillLine, BillLineKind, BillPayment, StockUse, SupplierBill
from quotes.models.books.build import CalledOff, ExtraWork, ExtraWorkState, WorkedHours
from quotes.models.books.invoice import Invoice, InvoiceDraft, InvoiceKind
from quotes.models.books.journal import (
    BatchState,
    ExportBatch,
    JournalEntry,
    JournalLine,
    JournalSource,
    MonthLock,
)
from quotes.models.books.payment import (
    Allocation,
    ItemKind,
    OpenItem,
    Payment,
    PaymentKind,
    PaymentMethod,
    WriteOff,
)
from quotes.models.books.reminder import PaymentReminder, ReminderSent, SentHow
from quotes.models.books.settings import BooksAccount, BooksSettings, DepositBy, LabourBy, Series
from quotes.models.catalogue_file import CatalogueFile
from quotes.models.counter import Counter
from quotes.models.customer import Customer
from quotes.models.customer_file import CustomerFile
from quotes.models.engine import Delivered, Engine, RenewedPart, Segment, ServiceUnit
from quotes.models.enquiry import Enquiry, EnquiryState
from quotes.models.erasure import ErasedRow, Erasure
from quotes.models.frozen import IssuedForGood
from quotes.models.invitation import Invitation
from quotes.models.link import Link, token_hash
from quotes.models.quote import Quote, QuoteState
from quotes.models.revision import Revision
from quotes.models.rules import ClassRule, ClosedDay, KindOfWork, LabourRate, MarkupBand
from quotes.models.sent_form import SentForm
from quotes.models.sign_in import SignIn
from quotes.models.stored_file import StoredFile
from quotes.models.tax import TaxCategory, TaxCode, TaxComponent, TaxRate
from quotes.models.telephone import Telephone
from quotes.models.workshop import DistanceUnit, Paper, TaxStyle, Workshop

__all__ = [
    "Acceptance",
    "Allocation",
    "Allowance",
    "AssemblyEntry",
    "AssemblyRecord",
    "AuditAction",
    "AuditEntry",
    "AuditHead",
    "AuditWords",
    "Authority",
    "BackgroundWork",
    "BankColumns",
    "BankFile",
    "BankLine",
    "BankLineState",
    "BatchState",
    "BillLine",
    "BillLineKind",
    "BillPayment",
    "Booking",
    "BookingTerms",
    "BooksAccount",
    "BooksSettings",
    "ByKind",
    "CalledOff",
    "CatalogueFile",
    "ClassRule",
    "ClockRun",
    "ClosedDay",
    "Concession",
    "Core",
    "CoreState",
    "Counter",
    "Customer",
    "CustomerFile",
    "DeclinedAdvice",
    "Delivered",
    "DepositBy",
    "DistanceUnit",
    "Engine",
    "Enquiry",
    "EnquiryState",
    "ErasedRow",
    "Erasure",
    "Evidence",
    "ExportBatch",
    "ExtraWork",
    "ExtraWorkState",
    "FailureReport",
    "FinalCheck",
    "FindingSeen",
    "FindingsReport",
    "IfNot",
    "Instrument",
    "IntakeReceipt",
    "Invitation",
    "Invoice",
    "InvoiceDraft",
    "InvoiceKind",
    "IssuedForGood",
    "ItemKind",
    "Job",
    "JobStep",
    "JournalEntry",
    "JournalLine",
    "JournalSource",
    "Judged",
    "KindOfWork",
    "LabourBy",
    "LabourRate",
    "LifedPart",
    "Link",
    "ManualLimit",
    "MarkupBand",
    "Measured",
    "MonthLock",
    "OldParts",
    "OpenItem",
    "OrderEvent",
    "OrderEventKind",
    "OrderLine",
    "Outcome",
    "OwnPart",
    "Paper",
    "PartStay",
    "Payment",
    "PaymentKind",
    "PaymentMethod",
    "PaymentReminder",
    "Photo",
    "PhotoAbout",
    "PurchaseOrder",
    "Quote",
    "QuoteState",
    "ReadWhen",
    "Release",
    "Reminder",
    "ReminderSent",
    "RenewedPart",
    "Reply",
    "ReplyKind",
    "Revision",
    "RunningInRule",
    "SaidHow",
    "Segment",
    "SentForm",
    "SentHow",
    "Series",
    "ServiceEnd",
    "ServiceKnown",
    "ServiceOutcome",
    "ServiceReport",
    "ServiceUnit",
    "ShopFactorChange",
    "SignIn",
    "SlotDeposit",
    "Step",
    "StockUse",
    "StoredFile",
    "Substitute",
    "SupplierBill",
    "TakesOff",
    "TaxCategory",
    "TaxCode",
    "TaxComponent",
    "TaxRate",
    "TaxStyle",
    "TeardownDeclined",
    "TeardownLeave",
    "TeardownPrice",
    "Telephone",
    "TestRun",
    "Verdict",
    "WhoPays",
    "WorkState",
    "WorkedAgain",
    "WorkedHours",
    "WorksOrder",
    "Workshop",
    "WriteOff",
    "token_hash",
]
