"""The accounts that entries are made on: which there are, their codes where the shop set none, their side."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from catalogue.calc.said import to_say
from quotes.calc.books.values import AccountCode, Role
from quotes.calc.invoice.values import LineKind

Accounts = Mapping[Role, AccountCode]

_CHART: tuple[tuple[Role, str, str], ...] = (
    ("bank", "1000", to_say("Bank")),
    ("cash", "1010", to_say("Cash")),
    ("card", "1020", to_say("Card payments on their way")),
    ("cheques", "1030", to_say("Cheques in hand")),
    ("receivables", "1100", to_say("Customers")),
    ("stock", "1200", to_say("Parts in stock")),
    ("work_in_progress", "1300", to_say("Work in progress")),
    ("tax_on_purchases", "1400", to_say("Tax on purchases")),
    ("payables", "2000", to_say("Suppliers")),
    ("deposits_held", "2100", to_say("Deposits held")),
    ("tax_on_sales", "2200", to_say("Tax on sales")),
    ("opening", "3000", to_say("Opening balance")),
    ("sales_labour", "4000", to_say("Labour")),
    ("sales_parts", "4100", to_say("Parts")),
    ("sales_machine_work", "4200", to_say("Machine work")),
    ("sales_consumables", "4300", to_say("Consumables")),
    ("sales_other", "4400", to_say("Storage, freight, cores and other")),
    ("discounts", "4500", to_say("Discounts given")),
    ("interest_income", "4600", to_say("Interest on late payment")),
    ("rounding", "4700", to_say("Rounding")),
    ("cost_of_parts", "5000", to_say("Cost of parts")),
    ("cost_of_machine_work", "5100", to_say("Cost of machine work")),
    ("cost_of_sales_other", "5200", to_say("Other cost of sales")),
    ("overheads", "6000", to_say("Overheads")),
    ("written_off", "6100", to_say("Written off")),
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
