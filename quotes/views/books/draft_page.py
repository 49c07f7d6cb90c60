"""A draft document opened: its form, the sum as it will stand, and what goes beyond the yes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from quotes.calc.ask.fault import BadRequest
from quotes.calc.invoice.allowed import Beyond
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.values import InvoiceLine, InvoiceSheet
from quotes.forms.books.draft import ConsentForm, DraftForm
from quotes.forms.books.draft_lines import LineRow
from quotes.models import InvoiceDraft
from quotes.queries.books.account import BuildAccount
from quotes.queries.books.build import build_account
from quotes.queries.books.credits import credit_content
from quotes.queries.books.day import money_of
from quotes.queries.books.draft_lines import beyond_of, offered_lines, receipts_left
from quotes.queries.books.proposed import ProposedLine, proposed_lines
from quotes.queries.books.sheets import content_of, unkept_sheet
from quotes.queries.rights import may
from quotes.views.books.parts import payers


@dataclass(slots=True)
class OpenedDraft:
    """One draft on its page. `content` is what would be kept, and `sheet` what it would be issued as."""

    draft: InvoiceDraft
    stored: Draft
    account: BuildAccount | None
    form: DraftForm
    content: Draft | None = None
    sheet: InvoiceSheet | None = None
    beyond: Sequence[Beyond] = ()
    faults: list[str] = field(default_factory=list)


def open_draft(
    draft: InvoiceDraft, data: Mapping[str, Any] | None = None, *, adding: bool = False
) -> OpenedDraft:
    """The draft as it is kept, or with what was typed into it, worked out where that is sound."""
    on = timezone.localdate()
    stored = content_of(draft)
    account = build_account(draft.build, on, stored.labour_by) if draft.build else None
    money = money_of(on)
    codes = [(code, f"{code}, {rate.rate_pct.normalize():f} %") for code, rate in money.tax_codes.items()]
    form = DraftForm(
        data,
        draft,
        stored,
        offered_lines(draft, stored, account),
        receipts_left(draft, account),
        currency=money.currency,
        decimals=money.decimals,
        tax_codes=codes,
    )
    opened = OpenedDraft(draft, stored, account, form)
    if data is None:
        opened.content = stored
    elif form.is_valid(adding=adding):
        opened.content = _typed(opened)
    work_out(opened)
    return opened


def _typed(opened: OpenedDraft) -> Draft | None:
    """What was typed, as content. The lines of a credit note follow the original's allowances and tax."""
    content, original = opened.form.content(), opened.draft.original
    if original is None:
        return content
    try:
        return credit_content(original, content)
    except BadRequest as bad:
        opened.faults = opened.form.say_faults(bad.faults)
        return None


def work_out(opened: OpenedDraft) -> None:
    """The sheet of what is in hand, kept or not."""
    if opened.content is None:
        return
    row = opened.draft
    kept = row.content
    row.content = opened.content.model_dump(mode="json")
    told = opened.form.head.cleaned_data if opened.form.head.is_bound else {}
    row.supplied_on = told.get("supplied_on", row.supplied_on)
    try:
        opened.sheet = unkept_sheet(row, timezone.localdate())
    except BadRequest as bad:
        opened.faults = [f"{fault.field}: {fault.value}: {fault.allowed}" for fault in bad.faults]
        return
    finally:
        row.content = kept
    opened.beyond = beyond_of(opened.sheet, opened.account)


@dataclass(frozen=True, slots=True)
class ShownLine:
    """A row of the page with the line that it will be issued as; None while it is out or unsound."""

    place: int
    row: LineRow
    line: InvoiceLine | None


def shown_rows(opened: OpenedDraft) -> Iterator[ShownLine]:
    lines = list(opened.sheet.lines) if opened.sheet else []
    by_line = {line.of_line: line for line in lines if line.of_line is not None}
    for place, row in enumerate(opened.form.rows):
        line = None
        if row.is_inside and lines:
            line = by_line.get(row.line.of_line or 0) if opened.form.credit else lines.pop(0)
        yield ShownLine(place, row, line)


def proposals(opened: OpenedDraft) -> list[ProposedLine]:
    """Interest and storage that the signed terms ask for and that the draft does not hold."""
    if opened.draft.kind != "invoice" or opened.draft.build is None:
        return []
    held = {_what(line) for line in opened.stored.lines}
    found = proposed_lines(opened.draft.customer, opened.draft.build, timezone.localdate())
    return [each for each in found if _what(each.line) not in held]


def _what(line: DraftLine) -> str:
    """What a proposed line is for, whatever its day: the draft may hold it as of yesterday."""
    return line.key.rpartition(":")[0]


def render_draft(
    request: HttpRequest, opened: OpenedDraft, *, version: int | None = None, **more: Any
) -> HttpResponse:
    """The page, or with a script only the sum and the nets that follow what was typed."""
    rows = list(shown_rows(opened))
    owner = may(request.user, "invoice more than the yes")
    context = {
        "opened": opened,
        "draft": opened.draft,
        "form": opened.form,
        "sheet": opened.sheet,
        "rows": rows,
        "inside": [each for each in rows if each.row.is_inside],
        "outside": [each for each in rows if not each.row.is_inside],
        "version": version or opened.draft.version,
        "owner": owner,
        **more,
    }
    context.setdefault("consent_form", ConsentForm() if owner and opened.beyond else None)
    if request.headers.get("HX-Target") == "draft-sum":
        return render(request, "quotes/books/draft_follow.html", context)
    return render(request, "quotes/books/draft.html", context | payers() | {"proposals": proposals(opened)})
