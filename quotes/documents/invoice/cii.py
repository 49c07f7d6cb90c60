"""An invoice as XML: UN/CEFACT Cross Industry Invoice D16B in the profile of EN 16931.

Element names and their order are those of the standard's binding; the number of the business term stands
beside each value.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from typing import Any

from lxml import etree  # type: ignore[import-untyped]

from catalogue.calc.money import round_half_up
from quotes.calc.invoice.countries import begins_with_country
from quotes.calc.invoice.values import TYPE_CODES, Adjustment, InvoiceLine, InvoiceSheet
from quotes.calc.sheet.issued_values import Party
from quotes.calc.sheet.line_values import TaxGroup

PROFILE = "urn:cen.eu:en16931:2017"
"""BT-24."""
RSM = "urn:un:unece:uncefact:data:standard:CrossIndustryInvoice:100"
RAM = "urn:un:unece:uncefact:data:standard:ReusableAggregateBusinessInformationEntity:100"
UDT = "urn:un:unece:uncefact:data:standard:UnqualifiedDataType:100"
QDT = "urn:un:unece:uncefact:data:standard:QualifiedDataType:100"
DAY = "102"
"""UNTDID 2379: a day as CCYYMMDD."""
SEPA_TRANSFER, TRANSFER, NOT_SAID = "58", "30", "1"
"""BT-81, from UNTDID 4461."""

Element = Any
"""Of lxml, which has no types."""


def cii_xml(sheet: InvoiceSheet) -> bytes:
    """The document as UTF-8 bytes, the same each time."""
    names = {"rsm": RSM, "ram": RAM, "udt": UDT, "qdt": QDT}
    root = etree.Element(f"{{{RSM}}}CrossIndustryInvoice", nsmap=names)
    context = etree.SubElement(root, f"{{{RSM}}}ExchangedDocumentContext")
    _put(_under(context, "GuidelineSpecifiedDocumentContextParameter"), "ID", PROFILE)
    _head(etree.SubElement(root, f"{{{RSM}}}ExchangedDocument"), sheet)
    deal = etree.SubElement(root, f"{{{RSM}}}SupplyChainTradeTransaction")
    for line in sheet.lines:
        _line(_under(deal, "IncludedSupplyChainTradeLineItem"), line, sheet)
    _agreement(_under(deal, "ApplicableHeaderTradeAgreement"), sheet)
    _delivery(_under(deal, "ApplicableHeaderTradeDelivery"), sheet)
    _settlement(_under(deal, "ApplicableHeaderTradeSettlement"), sheet)
    content: bytes = etree.tostring(root, xml_declaration=True, encoding="UTF-8", pretty_print=True)
    return content


def _under(parent: Element, name: str) -> Element:
    return etree.SubElement(parent, f"{{{RAM}}}{name}")


def _put(parent: Element, name: str, text: str, **attributes: str) -> None:
    """A child with a text; none where there is no text to put in."""
    if text:
        child = _under(parent, name)
        child.text = text
        child.attrib.update(attributes)


def _put_day(parent: Element, name: str, on: date, namespace: str = UDT) -> None:
    stamp = etree.SubElement(_under(parent, name), f"{{{namespace}}}DateTimeString", format=DAY)
    stamp.text = f"{on:%Y%m%d}"


def _number(amount: Decimal) -> str:
    """A quantity, price or rate with no more digits than it has."""
    return f"{amount.normalize():f}"


def _amount(amount: Decimal, decimals: int) -> str:
    return f"{round_half_up(amount, decimals):f}"


def _head(document: Element, sheet: InvoiceSheet) -> None:
    _put(document, "ID", sheet.number)  # BT-1
    _put(document, "TypeCode", TYPE_CODES[sheet.kind])  # BT-3
    _put_day(document, "IssueDateTime", sheet.issued_on)  # BT-2
    for text in (sheet.reason, *sheet.notes):
        if text:
            _put(_under(document, "IncludedNote"), "Content", text)  # BT-22


def _line(item: Element, line: InvoiceLine, sheet: InvoiceSheet) -> None:
    about = _under(item, "AssociatedDocumentLineDocument")
    _put(about, "LineID", str(line.number))  # BT-126
    if line.note:
        _put(_under(about, "IncludedNote"), "Content", line.note)  # BT-127
    _put(_under(item, "SpecifiedTradeProduct"), "Name", line.description)  # BT-153
    price = _under(_under(item, "SpecifiedLineTradeAgreement"), "NetPriceProductTradePrice")
    _put(price, "ChargeAmount", _number(line.unit_price))  # BT-146
    _put(price, "BasisQuantity", _number(line.price_base), unitCode=line.unit_code)  # BT-149, BT-150
    delivered = _under(item, "SpecifiedLineTradeDelivery")
    _put(delivered, "BilledQuantity", _number(line.quantity), unitCode=line.unit_code)  # BT-129, BT-130
    settled = _under(item, "SpecifiedLineTradeSettlement")
    _tax(settled, "ApplicableTradeTax", line.category, line.rate_pct)  # BT-151, BT-152
    for adjustment in line.adjustments:
        _adjustment(settled, adjustment, sheet.decimals)
    total = _under(settled, "SpecifiedTradeSettlementLineMonetarySummation")
    _put(total, "LineTotalAmount", _amount(line.net, sheet.decimals))  # BT-131


def _tax(parent: Element, name: str, category: str, rate_pct: Decimal) -> None:
    tax = _under(parent, name)
    _put(tax, "TypeCode", "VAT")
    _put(tax, "CategoryCode", category)
    if category != "O":  # BR-O-5: outside the scope there is no rate at all
        _put(tax, "RateApplicablePercent", _number(rate_pct))


def _adjustment(parent: Element, adjustment: Adjustment, decimals: int) -> None:
    put_on = adjustment.kind == "charge"
    entry = _under(parent, "SpecifiedTradeAllowanceCharge")
    etree.SubElement(_under(entry, "ChargeIndicator"), f"{{{UDT}}}Indicator").text = str(put_on).lower()
    if adjustment.percent is not None:
        _put(entry, "CalculationPercent", _number(adjustment.percent))
    if adjustment.base is not None:
        _put(entry, "BasisAmount", _amount(adjustment.base, decimals))
    _put(entry, "ActualAmount", _amount(adjustment.amount, decimals))
    _put(entry, "Reason", adjustment.reason or ("Charge" if put_on else "Discount"))
    if adjustment.category:
        _tax(entry, "CategoryTradeTax", adjustment.category, adjustment.rate_pct)


def _agreement(agreement: Element, sheet: InvoiceSheet) -> None:
    taxed = all(group.category != "O" for group in sheet.sums.tax_groups)
    seller, buyer = (_under(agreement, f"{name}TradeParty") for name in ("Seller", "Buyer"))
    _party(seller, sheet.seller, sheet.seller_country, taxed=taxed)
    if taxed and not _is_vat_number(sheet.seller, taxed):
        _tax_number(seller, sheet.seller, "FC")  # BT-32
    _party(buyer, sheet.buyer, sheet.buyer_country, taxed=taxed)
    if sheet.agreed:
        order = _under(agreement, "BuyerOrderReferencedDocument")
        _put(order, "IssuerAssignedID", f"{sheet.agreed.quote}, revision {sheet.agreed.revision}")  # BT-13


def _party(party: Element, given: Party, country: str, *, taxed: bool) -> None:
    if not _is_vat_number(given, taxed):
        _put(party, "ID", given.tax_registration)  # BT-29, BT-46: who it is, where no other number says so
    _put(party, "Name", given.name)  # BT-27, BT-44
    if given.telephone or given.email:
        contact = _under(party, "DefinedTradeContact")
        _put(contact, "PersonName", given.name)
        if given.telephone:
            _put(_under(contact, "TelephoneUniversalCommunication"), "CompleteNumber", given.telephone)
        if given.email:
            _put(_under(contact, "EmailURIUniversalCommunication"), "URIID", given.email)
    address = _under(party, "PostalTradeAddress")
    for name, text in zip(("LineOne", "LineTwo", "LineThree"), _three(given.lines), strict=False):
        _put(address, name, text)
    _put(address, "CountryID", country)  # BT-40, BT-55
    if _is_vat_number(given, taxed):
        _tax_number(party, given, "VA")  # BT-31, BT-48


def _is_vat_number(given: Party, taxed: bool) -> bool:
    """Outside the scope of tax such a number must not stand (BR-O-02)."""
    return taxed and begins_with_country(given.tax_registration)


def _tax_number(party: Element, given: Party, scheme: str) -> None:
    _put(_under(party, "SpecifiedTaxRegistration"), "ID", given.tax_registration, schemeID=scheme)


def _three(lines: tuple[str, ...]) -> tuple[str, ...]:
    """An address as typed, in the three lines that the standard has."""
    return lines if len(lines) <= 3 else (*lines[:2], ", ".join(lines[2:]))


def _delivery(delivery: Element, sheet: InvoiceSheet) -> None:
    if any(group.category == "K" for group in sheet.sums.tax_groups):
        address = _under(_under(delivery, "ShipToTradeParty"), "PostalTradeAddress")
        _put(address, "CountryID", sheet.buyer_country)  # BT-80, which BR-IC-12 asks for
    event = _under(delivery, "ActualDeliverySupplyChainEvent")
    _put_day(event, "OccurrenceDateTime", sheet.supplied_on)  # BT-72


def _settlement(settlement: Element, sheet: InvoiceSheet) -> None:
    _put(settlement, "PaymentReference", sheet.remittance)  # BT-83
    _put(settlement, "InvoiceCurrencyCode", sheet.currency)  # BT-5
    _payment_means(settlement, sheet)
    for group in sheet.sums.tax_groups:
        _tax_group(settlement, group, sheet.decimals)
    if sheet.supplied_from:
        period = _under(settlement, "BillingSpecifiedPeriod")
        _put_day(period, "StartDateTime", sheet.supplied_from)  # BT-73
        _put_day(period, "EndDateTime", sheet.supplied_on)  # BT-74
    for adjustment in sheet.adjustments:
        _adjustment(settlement, adjustment, sheet.decimals)
    terms = _under(settlement, "SpecifiedTradePaymentTerms")
    _put(terms, "Description", sheet.payment_words)  # BT-20
    if sheet.due_on:
        _put_day(terms, "DueDateDateTime", sheet.due_on)  # BT-9
    if not len(terms):
        settlement.remove(terms)
    _totals(_under(settlement, "SpecifiedTradeSettlementHeaderMonetarySummation"), sheet)
    for reference in sheet.preceding:
        earlier = _under(settlement, "InvoiceReferencedDocument")
        _put(earlier, "IssuerAssignedID", reference.number)  # BT-25
        _put_day(earlier, "FormattedIssueDateTime", reference.issued_on, QDT)  # BT-26


def _payment_means(settlement: Element, sheet: InvoiceSheet) -> None:
    means, account = _under(settlement, "SpecifiedTradeSettlementPaymentMeans"), sheet.account
    if not account.iban:
        _put(means, "TypeCode", NOT_SAID)
        return
    _put(means, "TypeCode", SEPA_TRANSFER if sheet.currency == "EUR" else TRANSFER)
    creditor = _under(means, "PayeePartyCreditorFinancialAccount")
    _put(creditor, "IBANID", account.iban)  # BT-84
    _put(creditor, "AccountName", account.name)  # BT-85
    if account.bic:
        _put(_under(means, "PayeeSpecifiedCreditorFinancialInstitution"), "BICID", account.bic)  # BT-86


def _tax_group(settlement: Element, group: TaxGroup, decimals: int) -> None:
    tax = _under(settlement, "ApplicableTradeTax")
    _put(tax, "CalculatedAmount", _amount(group.tax, decimals))  # BT-117
    _put(tax, "TypeCode", "VAT")
    _put(tax, "ExemptionReason", group.reason)  # BT-120
    _put(tax, "BasisAmount", _amount(group.taxable, decimals))  # BT-116
    _put(tax, "CategoryCode", group.category)  # BT-118
    if group.category != "O":
        _put(tax, "RateApplicablePercent", _number(group.rate_pct))  # BT-119


def _totals(summation: Element, sheet: InvoiceSheet) -> None:
    sums = sheet.sums
    kinds = {adjustment.kind for adjustment in sheet.adjustments}
    rows: Iterable[tuple[str, Decimal, bool]] = (
        ("LineTotalAmount", sums.line_total, True),  # BT-106
        ("ChargeTotalAmount", sums.charge_total, "charge" in kinds),  # BT-108
        ("AllowanceTotalAmount", sums.allowance_total, "allowance" in kinds),  # BT-107
        ("TaxBasisTotalAmount", sums.net, True),  # BT-109
        ("TaxTotalAmount", sums.tax, True),  # BT-110
        ("RoundingAmount", sums.rounding, bool(sums.rounding)),  # BT-114
        ("GrandTotalAmount", sums.gross, True),  # BT-112
        ("TotalPrepaidAmount", sums.prepaid, bool(sums.prepaid)),  # BT-113
        ("DuePayableAmount", sums.due, True),  # BT-115
    )
    for name, amount, wanted in rows:
        if wanted:
            currency = {"currencyID": sheet.currency} if name == "TaxTotalAmount" else {}
            _put(summation, name, _amount(amount, sheet.decimals), **currency)
