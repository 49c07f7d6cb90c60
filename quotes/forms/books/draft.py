"""A draft document on its page: who pays, its lines, what is taken off, and what is said on it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, to_say
from quotes.calc.ask.fault import Fault
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.forms.books.draft_lines import LineRow, NewLine, Receipts, rows_posted, rows_shown
from quotes.forms.books.fields import Payer
from quotes.forms.figures import Day, Line, SettingsForm
from quotes.models import Customer, InvoiceDraft
from quotes.queries.books.draft_lines import Offered

BROKEN = to_say("The page came back without its lines: open the draft again.")


class DraftHead(SettingsForm):
    """Who pays, and what stands on the paper beside the lines."""

    payer = Payer(_("Who pays?"), required=True)
    supplied_on = Day(_("Work done on"), required=False)
    reason = Line(_("Why is it taken back?"), 300, rows=2)
    note = Line(_("Said on the paper"), 500, rows=2)
    last = forms.BooleanField(label=_("Nothing more is asked for of this build"), required=False)

    def __init__(self, *args: Any, kind: str, **options: Any) -> None:
        super().__init__(*args, **options)
        unused = {"supplied_on", "last", "payer"} if kind == "credit_note" else {"reason"}
        if kind == "deposit_invoice":
            unused |= {"last"}
        for name in unused:
            del self.fields[name]


class DraftForm:
    """All of a draft's page. `offered` are its lines, and those that it could take in."""

    def __init__(
        self,
        data: Mapping[str, Any] | None,
        draft: InvoiceDraft,
        stored: Draft,
        offered: Sequence[Offered],
        receipts: Mapping[str, Decimal],
        *,
        currency: str,
        decimals: int,
        tax_codes: Sequence[tuple[str, str]],
    ) -> None:
        self.stored, self.decimals, self.credit = stored, decimals, draft.kind == "credit_note"
        said = {name: getattr(stored, name) for name in ("reason", "note", "last")}
        initial = {"payer": draft.customer, "supplied_on": draft.supplied_on, **said}
        self.head = DraftHead(data, prefix="head", kind=draft.kind, initial=initial)
        self.faults: list[str] = []
        posted = rows_posted(data, credit=self.credit, tax_codes=tax_codes) if data is not None else None
        if data is not None and posted is None:
            self.faults.append(say(BROKEN))
        shown = rows_shown(offered, credit=self.credit, tax_codes=tax_codes)
        self.rows: list[LineRow] = shown if posted is None else posted
        coins = {"currency": currency, "decimals": decimals}
        self.new = NewLine(data, tax_codes=tax_codes, **coins)  # type: ignore[arg-type]
        self._blank_line = NewLine(None, tax_codes=tax_codes, **coins)  # type: ignore[arg-type]
        self.receipts = Receipts(data, receipts, stored.prepayments, **coins)  # type: ignore[arg-type]

    def is_valid(self, *, adding: bool = False) -> bool:
        """Whether all of it can be kept. Lines that are out are not judged; the blank new line neither."""
        sound = [self.head.is_valid(), self.receipts.is_valid(), not self.faults]
        sound += [row.is_valid() for row in self.rows if row.is_inside]
        if adding or not self.new.is_blank:
            sound.append(self.new.is_valid())
        else:
            self.new = self._blank_line
        return all(sound)

    @property
    def lines(self) -> tuple[DraftLine, ...]:
        """The lines that are in, with a new one that was typed."""
        kept = [row.value(self.decimals) for row in self.rows if row.is_inside]
        if not self.new.is_blank:
            kept.append(self.new.value())
        return tuple(kept)

    def says_why(self) -> bool:
        """Whether a credit note says why; its fault stands at the field. A draft may be kept without."""
        if self.credit and not str(self.head["reason"].data or "").strip():
            self.head.add_error("reason", say("Nothing is given: the customer reads why it is taken back."))
        return not self.head.errors

    def say_faults(self, faults: Sequence[Fault]) -> list[str]:
        """Put each fault at its line (`lines.3.quantity`, from 1) or receipt; gives what has no place."""
        inside = [row for row in self.rows if row.is_inside]
        rest = []
        for fault in faults:
            said = f"“{fault.value}”: {fault.allowed}."
            what, _, place = fault.field.partition(".")
            number, _, name = place.partition(".")
            if what == "lines" and number.isdecimal() and 0 < int(number) <= len(inside):
                row = inside[int(number) - 1]
                row.add_error(name if name in row.fields else None, said)
            elif what == "prepayments" and place in self.receipts.fields:
                self.receipts.add_error(place, said)
            else:
                rest.append(said)
        return rest

    def content(self) -> Draft:
        """What was typed, as it would be kept."""
        told = self.head.cleaned_data
        said = {"note": told["note"], "lines": self.lines}
        if self.credit:
            return self.stored.model_copy(update={**said, "reason": told["reason"]})
        return self.stored.model_copy(
            update={
                **said,
                "last": told.get("last", False),
                "prepayments": self.receipts.value(),
            }
        )

    def payer(self) -> Customer | None:
        found: Customer | None = self.head.cleaned_data.get("payer")
        return found


class ConsentForm(SettingsForm):
    """The owner's word for asking for more than was accepted."""

    consent = Line(_("The owner consents to asking for more, because"), 300)


class EarlierDayForm(SettingsForm):
    """The owner's word for an earlier day than that of the document before."""

    earlier_because = Line(_("The owner lets this day stand, because"), 300)
