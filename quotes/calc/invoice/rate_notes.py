"""What an invoice says where a tax rate is not the one that the quote reckoned with."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal

from catalogue.calc.said import say, say_figure
from quotes.calc.said_days import said_day
from quotes.calc.sheet.values import Option
from quotes.calc.shop import TaxCode


def rate_notes(
    option: Option, used: Iterable[str], tax_codes: Mapping[str, TaxCode], supplied_on: date
) -> tuple[str, ...]:
    """A sentence for each tax code in use whose rate on the day of supply is not the quoted one."""
    quoted = {group.code: group.rate_pct for group in option.tax_groups}
    said = []
    for code in dict.fromkeys(used):
        now = tax_codes.get(code)
        before = quoted.get(code)
        if now is not None and before is not None and now.rate_pct != before:
            said.append(
                say(
                    "Tax {code} is {rate}, the rate on the day of supply, {day}; the quote reckoned with "
                    "{before}.",
                    code=code,
                    rate=_percent(now.rate_pct),
                    day=said_day(supplied_on),
                    before=_percent(before),
                )
            )
    return tuple(said)


def _percent(rate_pct: Decimal) -> str:
    return f"{say_figure(rate_pct, max(0, -int(rate_pct.normalize().as_tuple().exponent)))} %"
