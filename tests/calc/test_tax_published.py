"""Published invoices of EN 16931: lines, groups and totals come out as printed.

Lines, rates and totals are copied from public example files; nothing expected here was computed by us.
CEN: the example files beside the validation rules of EN 16931 (repository eInvoicing-EN16931 of
ConnectingEurope, EUPL-1.2 and Apache-2.0). ZUGFeRD: the invoice corpus of the ZUGFeRD format (Apache-2.0).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

import pytest

from catalogue.calc.money import round_half_up
from quotes.calc.money.price import line_net
from quotes.calc.money.tax import tax_of, taxed_sum
from quotes.calc.shop import TaxCode, TaxComponent


@dataclass(frozen=True)
class Published:
    """`lines`: quantity, price, price base, own allowances and charges, net, category, rate.

    `document`: allowances (negative) and charges on the whole, category, rate.
    `groups`: category, rate, taxable, tax, in the order in which their lines come.
    """

    source: str
    lines: tuple[tuple[str, str, str, str, str, str, str], ...]
    groups: tuple[tuple[str, str, str, str], ...]
    net: str
    tax: str
    gross: str
    document: tuple[tuple[str, str, str], ...] = ()
    decimals: int = 2


TWO_RATES_WITH_ALLOWANCES = Published(
    source="CEN, ubl/examples/ubl-tc434-example5.xml (invoice TOSL110)",
    lines=(
        ("1000", "1.00", "1", "0.00", "1000.00", "S", "25"),
        ("100", "5.00", "1", "0", "500.00", "S", "25"),
        ("500", "5.00", "1", "0", "2500.00", "S", "12"),
    ),
    document=(("-150.00", "S", "25"), ("150.00", "S", "25")),
    groups=(("S", "25", "1500.00", "375.00"), ("S", "12", "2500.00", "300.00")),
    net="4000.00",
    tax="675.00",
    gross="4675.00",
)
THREE_RATES_AND_EXEMPT = Published(
    source="CEN, ubl/examples/issue116.xml (invoice 2018210)",
    lines=(
        ("1", "100", "1", "0", "100", "S", "6"),
        ("1", "50", "1", "0", "50", "S", "12"),
        ("1", "150", "1", "0", "150", "S", "12"),
        ("1", "400", "1", "0", "400", "S", "25"),
    ),
    document=(("0", "S", "6"), ("-1", "E", "0"), ("1", "E", "0"), ("0", "E", "0")),
    groups=(
        ("S", "6", "100", "6"),
        ("S", "12", "200", "24"),
        ("S", "25", "400", "100"),
        ("E", "0", "0", "0"),
    ),
    net="700",
    tax="130",
    gross="830",
)
RETURN_ON_THE_HALF_CENT = Published(
    source="CEN, ubl/examples/BIS3_Invoice_negativ.XML (invoice 12345)",
    lines=(("-1", "625743.54", "1", "0", "-625743.54", "S", "25"),),
    groups=(("S", "25", "-625743.54", "-156435.89"),),
    net="-625743.54",
    tax="-156435.89",
    gross="-782179.43",
)
HALF_CENT_IN_TAX = Published(
    source="CEN, test/testfiles/BIS_Billing_30-Tjanster_Kopiering.xml (invoice 743617)",
    lines=(
        ("1", "2770", "1", "0", "2770", "S", "25"),
        ("1488", "1.507", "1", "0", "2242.42", "S", "25"),
    ),
    groups=(("S", "25", "5012.42", "1253.11"),),
    net="5012.42",
    tax="1253.11",
    gross="6265.53",
)
WHOLE_UNITS_AND_PRICE_BASE = Published(
    source="CEN, cii/examples/huf_example_cii.xml (invoice 21/001003559/996)",
    lines=(
        ("64.", "36109.00", "100.", "330.00", "23440.00", "S", "27.00"),
        ("56.81", "37134.00", "100.", "293.00", "21389.00", "S", "27.00"),
        ("63.97", "37550.00", "100.", "330.00", "24351.00", "S", "27.00"),
    ),
    groups=(("S", "27.00", "69180.00", "18679.00"),),
    net="69180.00",
    tax="18679.00",
    gross="87859.00",
    decimals=0,
)
ALLOWANCES_BELOW_THE_LINES = Published(
    source="CEN, test/testfiles/BIS_Billing_30-Kreditering_(urspr_faktura).xml (invoice 2018133)",
    lines=(
        ("2000", "10", "2", "200", "10200", "S", "25"),
        ("-800", "4", "5", "0", "-640", "S", "25"),
    ),
    document=(("-1912", "S", "25"), ("1020", "S", "25")),
    groups=(("S", "25", "8668", "2167"),),
    net="8668",
    tax="2167",
    gross="10835",
)
FOUR_PLACES_IN_THE_PRICE = Published(
    source="CEN, cii/examples/CII_business_example_02.xml (invoice INV000013)",
    lines=(
        ("1.0000", "1.2605", "1", "0", "1.26", "S", "19.00"),
        ("1.0000", "1.2605", "1", "0", "1.26", "S", "19.00"),
        ("1.0000", "7.4790", "1", "0", "7.48", "S", "19.00"),
    ),
    groups=(("S", "19.00", "10.00", "1.90"),),
    net="10.00",
    tax="1.90",
    gross="11.90",
)
TAXED_ON_THE_SUM = Published(
    source="ZUGFeRD, XML-Rechnung/CII/XRECHNUNG_Reisekostenabrechnung.cii.xml (invoice 280081)",
    lines=(
        ("1", "158.88", "1", "0", "158.88", "S", "7.00"),
        ("1", "11.76", "1", "0", "11.76", "S", "19.00"),
        ("1", "23.36", "1", "0", "23.36", "S", "7.00"),
        ("1", "20.09", "1", "0", "20.09", "S", "7.00"),
    ),
    groups=(("S", "7.00", "202.33", "14.16"), ("S", "19.00", "11.76", "2.23")),
    net="214.09",
    tax="16.39",
    gross="230.48",
)
ALL = (
    TWO_RATES_WITH_ALLOWANCES,
    THREE_RATES_AND_EXEMPT,
    RETURN_ON_THE_HALF_CENT,
    HALF_CENT_IN_TAX,
    WHOLE_UNITS_AND_PRICE_BASE,
    ALLOWANCES_BELOW_THE_LINES,
    FOUR_PLACES_IN_THE_PRICE,
    TAXED_ON_THE_SUM,
)
every_invoice = pytest.mark.parametrize("invoice", ALL, ids=lambda invoice: invoice.source)


def taxed_lines(invoice: Published) -> tuple[list[tuple[str, Decimal]], dict[str, TaxCode]]:
    """The nets to tax with codes made of category and rate, and those codes."""
    nets = [(category, rate, Decimal(net)) for *_, net, category, rate in invoice.lines]
    nets += [(category, rate, Decimal(amount)) for amount, category, rate in invoice.document]
    codes = {
        f"{category} {rate}": TaxCode(f"{category} {rate}", category, (TaxComponent("VAT", Decimal(rate)),))
        for category, rate, _ in nets
    }
    return [(f"{category} {rate}", net) for category, rate, net in nets], codes


@every_invoice
def test_line_sums_come_out_as_printed(invoice: Published) -> None:
    for quantity, price, base, charges, net, _, _ in invoice.lines:
        worked = line_net(Decimal(quantity), Decimal(price), invoice.decimals, price_base=Decimal(base))
        assert worked + Decimal(charges) == Decimal(net)


@every_invoice
def test_groups_and_totals_come_out_as_printed(invoice: Published) -> None:
    lines, codes = taxed_lines(invoice)

    groups = tax_of(lines, codes, invoice.decimals)
    total = taxed_sum(sum((net for _, net in lines), Decimal(0)), groups)

    assert [(group.category, group.rate_pct, group.taxable, group.tax) for group in groups] == [
        (category, Decimal(rate), Decimal(taxable), Decimal(tax))
        for category, rate, taxable, tax in invoice.groups
    ]
    assert (total.net, total.tax, total.gross) == tuple(
        Decimal(figure) for figure in (invoice.net, invoice.tax, invoice.gross)
    )


def test_tax_line_by_line_would_miss_a_printed_total() -> None:
    line_by_line = sum(
        round_half_up(Decimal(net) * Decimal(rate) / 100) for *_, net, _, rate in TAXED_ON_THE_SUM.lines
    )

    assert line_by_line == Decimal("16.40")
    assert Decimal(TAXED_ON_THE_SUM.tax) == Decimal("16.39")


@pytest.mark.parametrize("invoice", [RETURN_ON_THE_HALF_CENT, HALF_CENT_IN_TAX], ids=lambda one: one.source)
def test_rounding_to_even_would_miss_a_printed_total(invoice: Published) -> None:
    exact = Decimal(invoice.net) * Decimal(25) / 100

    assert round(exact, 2) != Decimal(invoice.tax)  # Python's round() of a Decimal goes to even
