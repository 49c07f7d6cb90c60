"""Selling without a build: who pays, and the first line."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any, cast

from django.utils.translation import gettext_lazy as _

from quotes.calc.invoice.draft import DraftLine
from quotes.forms.books.draft_lines import NewLine
from quotes.forms.books.fields import Payer
from quotes.forms.figures import SettingsForm
from quotes.models import Customer
from quotes.queries.books.day import codes_of


class SaleHead(SettingsForm):
    """Who pays."""

    payer = Payer(_("Who pays?"), required=True)


class SaleForm:
    """Payer and first line; more lines are added on the draft's own page."""

    def __init__(self, data: Mapping[str, Any] | None, *, currency: str, decimals: int, today: date) -> None:
        codes = [(code, code) for code in codes_of(today)]
        self.head = SaleHead(data, prefix="head")
        self.new = NewLine(data, currency=currency, decimals=decimals, tax_codes=codes)

    def is_valid(self) -> bool:
        return all([self.head.is_valid(), self.new.is_valid()])

    def payer(self) -> Customer:
        return cast(Customer, self.head.cleaned_data["payer"])

    def line(self) -> DraftLine:
        return self.new.value()
