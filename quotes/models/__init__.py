"""What the workshop keeps: itself, its customers and their engines, and what it promised them."""

from quotes.models.answer import Acceptance, Reply, ReplyKind
from quotes.models.booking import Authority, Booking, BookingTerms, OldParts, SaidHow, SlotDeposit
from quotes.models.books.bank import BankColumns, BankFile, BankLine, BankLineState
from quotes.models.books.bill import BillLine, BillLineKind, BillPayment, StockUse, SupplierBill
from quotes.models.books.build import ExtraWork, ExtraWorkState, WorkedHours
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
from quotes.models.books.settings import BooksAccount, BooksSettings, DepositBy, LabourBy, Series
from quotes.models.counter import Counter
from quotes.models.customer import Customer
from quotes.models.customer_file import CustomerFile
from quotes.models.engine import Delivered, Engine, RenewedPart, Segment, ServiceUnit
from quotes.models.enquiry import Enquiry, EnquiryState
from quotes.models.frozen import IssuedForGood
from quotes.models.link import Link, token_hash
from quotes.models.quote import Quote, QuoteState
from quotes.models.revision import Revision
from quotes.models.rules import ClassRule, ClosedDay, KindOfWork, LabourRate, MarkupBand
from quotes.models.stored_file import StoredFile
from quotes.models.tax import TaxCategory, TaxCode, TaxCodeBefore, TaxComponent
from quotes.models.workshop import DistanceUnit, Paper, TaxStyle, Workshop

__all__ = [
    "Acceptance",
    "Allocation",
    "Authority",
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
    "ClassRule",
    "ClosedDay",
    "Counter",
    "Customer",
    "CustomerFile",
    "Delivered",
    "DepositBy",
    "DistanceUnit",
    "Engine",
    "Enquiry",
    "EnquiryState",
    "ExportBatch",
    "ExtraWork",
    "ExtraWorkState",
    "Invoice",
    "InvoiceDraft",
    "InvoiceKind",
    "IssuedForGood",
    "ItemKind",
    "JournalEntry",
    "JournalLine",
    "JournalSource",
    "KindOfWork",
    "LabourBy",
    "LabourRate",
    "Link",
    "MarkupBand",
    "MonthLock",
    "OldParts",
    "OpenItem",
    "Paper",
    "Payment",
    "PaymentKind",
    "PaymentMethod",
    "Quote",
    "QuoteState",
    "RenewedPart",
    "Reply",
    "ReplyKind",
    "Revision",
    "SaidHow",
    "Segment",
    "Series",
    "ServiceUnit",
    "SlotDeposit",
    "StockUse",
    "StoredFile",
    "SupplierBill",
    "TaxCategory",
    "TaxCode",
    "TaxCodeBefore",
    "TaxComponent",
    "TaxStyle",
    "WorkedHours",
    "Workshop",
    "WriteOff",
    "token_hash",
]
