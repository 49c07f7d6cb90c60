"""What an invoice says where a tax rate is not the one that the quote reckoned with."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

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
                f"Tax {code} is {now.rate_pct.normalize():f} %, the rate on the day of supply, "
                f"{supplied_on.day} {supplied_on:%B %Y}; the quote reckoned with {before.normalize():f} %."
            )
    return tuple(said)
