"""The accounts that entries are made on: which there are, their codes where the shop set none, their side."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from quotes.calc.books.values import AccountCode, Role
from quotes.calc.invoice.values import LineKind

Accounts = Mapping[Role, AccountCode]

_CHART: tuple[tuple[Role, str, str], ...] = (
    ("bank", "1000", "Bank"),
    ("cash", "1010", "Cash"),
    ("card", "1020", "Card payments on their way"),
    ("cheques", "1030", "Cheques in hand"),
    ("receivables", "1100", "Customers"),
    ("stock", "1200", "Parts in stock"),
    ("work_in_progress", "1300", "Work in progress"),
    ("tax_on_purchases", "1400", "Tax on purchases"),
    ("payables", "2000", "Suppliers"),
    ("deposits_held", "2100", "Deposits held"),
    ("tax_on_sales", "2200", "Tax on sales"),
    ("opening", "3000", "Opening balance"),
    ("sales_labour", "4000", "Labour"),
    ("sales_parts", "4100", "Parts"),
    ("sales_machine_work", "4200", "Machine work"),
    ("sales_consumables", "4300", "Consumables"),
    ("sales_other", "4400", "Storage, freight, cores and other"),
    ("discounts", "4500", "Discounts given"),
    ("interest_income", "4600", "Interest on late payment"),
    ("rounding", "4700", "Rounding"),
    ("cost_of_parts", "5000", "Cost of parts"),
    ("cost_of_machine_work", "5100", "Cost of machine work"),
    ("cost_of_sales_other", "5200", "Other cost of sales"),
    ("overheads", "6000", "Overheads"),
    ("written_off", "6100", "Written off"),
)
"""Code and name of each account: common practice, no source. The shop sets its own."""

DEFAULT_ACCOUNTS: Accounts = MappingProxyType(
    {role: AccountCode(role=role, code=code, name=name) for role, code, name in _CHART}
)

ON_THE_CREDIT_SIDE: frozenset[Role] = frozenset(
    {
        "payables",
        "deposits_held",
        "tax_on_sales",
        "opening",
        "sales_labour",
        "sales_parts",
        "sales_machine_work",
        "sales_consumables",
        "sales_other",
        "interest_income",
        "rounding",
    }
)
"""Accounts whose balance is above nought when its credits are more than its debits."""

SALES: Mapping[LineKind, Role] = MappingProxyType(
    {
        "labour": "sales_labour",
        "part": "sales_parts",
        "machine_work": "sales_machine_work",
        "consumables": "sales_consumables",
        "discount": "discounts",
        "core": "sales_other",
        "storage": "sales_other",
        "freight": "sales_other",
        "interest": "interest_income",
        "deposit": "deposits_held",
        "other": "sales_other",
    }
)
"""The account of each kind of invoice line."""

MONEY: Mapping[str, Role] = MappingProxyType(
    {"cash": "cash", "card": "card", "transfer": "bank", "cheque": "cheques"}
)
"""The account of each way to pay."""
