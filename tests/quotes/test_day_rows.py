"""The rows of a day sheet: every text in them is text, and leads where it says."""

from __future__ import annotations

from decimal import Decimal

from quotes.templatetags.day_sheet import day_rows
from quotes.templatetags.sheet_words import unbroken
from quotes.views.today.item import Item


def test_a_row_shows_all_there_is_of_a_line_and_nothing_of_it_is_markup() -> None:
    line = Item("<Desk>", "Ring <O'Tam> on Q-2026-0001", "quote", 7, ("<b>four", "H<4>"), Decimal("1234.5"))

    assert day_rows([line]) == (
        '<tr><td>&lt;Desk&gt;</td><td><a href="/quotes/7/">Ring &lt;O&#x27;Tam&gt; on '
        '<span class="nowrap">Q-2026-0001</span></a></td>'
        '<td>&lt;b&gt;four, <span class="nowrap">H&lt;4&gt;</span></td>'
        '<td class="n">1,234.50</td><td class="n"></td></tr>\n'
    )


def test_what_must_be_done_today_is_bold_and_a_page_of_no_row_has_no_key() -> None:
    (row,) = day_rows([Item("Desk", "Order parts", "order-new", must=True)]).splitlines()

    assert row.startswith(
        '<tr><td class="now">Desk</td><td><b><a href="/bench/orders/new/">Order parts</a></b></td>'
    )
    assert row.count("<td") == 5


def test_numbers_of_papers_beside_marks_that_are_escaped_stay_whole() -> None:
    assert unbroken("P-2026-0001&X-1") == '<span class="nowrap">P-2026-0001</span>&amp;X-1'
    assert unbroken('"Q-2026-0002"') == '&quot;<span class="nowrap">Q-2026-0002</span>&quot;'
