"""The rows of a day sheet, drawn in one go: a template takes four times as long to go from cell to cell."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Protocol

from django import template
from django.urls import reverse
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe

from quotes.documents.words import figure
from quotes.templatetags.sheet_words import unbroken

register = template.Library()


class DayLine(Protocol):
    """What a row shows: who must act, what is done and where, of which engine, the sum, and since when."""

    @property
    def who(self) -> str: ...
    @property
    def what(self) -> str: ...
    @property
    def page(self) -> str: ...
    @property
    def key(self) -> int | None: ...
    @property
    def engine(self) -> tuple[str, str]: ...
    @property
    def amount(self) -> Decimal | None: ...
    @property
    def waited(self) -> str: ...
    @property
    def must(self) -> bool: ...


@register.filter
def day_rows(lines: Iterable[DayLine]) -> SafeString:
    """Rows of the table in `home/day.html`; what must be done today is bold."""
    return mark_safe("".join(f"{_row(line)}\n" for line in lines))  # Every text in it is escaped.


def _row(line: DayLine) -> str:
    url = escape(reverse(line.page, args=[line.key] if line.key else []))
    link = f'<a href="{url}">{unbroken(line.what)}</a>'
    name, number = map(escape, line.engine)
    engine = f'{name}, <span class="nowrap">{number}</span>' if number else name
    amount = "" if line.amount is None else escape(figure(line.amount))
    opening, what = ('<td class="now">', f"<b>{link}</b>") if line.must else ("<td>", link)
    sum_and_since = f'<td class="n">{amount}</td><td class="n">{escape(line.waited)}</td>'
    return f"<tr>{opening}{escape(line.who)}</td><td>{what}</td><td>{engine}</td>{sum_and_since}</tr>"
