"""What the workshop keeps: itself, its customers and their engines, and what it promised them."""

from quotes.models.answer import Acceptance, Reply, ReplyKind
from quotes.models.booking import Authority, Booking, BookingTerms, OldParts, SaidHow, SlotDeposit
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
from quotes.models.tax import TaxCategory, TaxCode, TaxComponent
from quotes.models.workshop import DistanceUnit, Paper, TaxStyle, Workshop

__all__ = [
    "Acceptance",
    "Authority",
    "Booking",
    "BookingTerms",
    "ClassRule",
    "ClosedDay",
    "Counter",
    "Customer",
    "CustomerFile",
    "Delivered",
    "DistanceUnit",
    "Engine",
    "Enquiry",
    "EnquiryState",
    "IssuedForGood",
    "KindOfWork",
    "LabourRate",
    "Link",
    "MarkupBand",
    "OldParts",
    "Paper",
    "Quote",
    "QuoteState",
    "RenewedPart",
    "Reply",
    "ReplyKind",
    "Revision",
    "SaidHow",
    "Segment",
    "ServiceUnit",
    "SlotDeposit",
    "StoredFile",
    "TaxCategory",
    "TaxCode",
    "TaxComponent",
    "TaxStyle",
    "Workshop",
    "token_hash",
]
