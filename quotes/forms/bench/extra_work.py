"""Offering extra work from the bench, and the customer's answer on his own page."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, to_say
from quotes.calc.bench.again.committed import Touches
from quotes.forms.books.build import ExtraForm, ExtraHead
from quotes.forms.books.extra_lines import HEAD, Begun
from quotes.forms.books.fields import offer
from quotes.forms.figures import Choice, Day, Line, Picked, SettingsForm

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

BEARS_ON: tuple[tuple[Touches, StrOrPromise], ...] = (
    ("safety", _("the rider's safety")),
    ("life", _("how long the engine lasts")),
    ("date", _("the day it is ready")),
)
PARTS = 3
"""As many components as one offer names; more are offers of their own."""


class BenchHead(ExtraHead):
    """What was found, what it is about, and what it bears on."""

    touches = forms.MultipleChoiceField(
        label=_("It bears on"),
        choices=BEARS_ON,
        required=False,
        widget=forms.CheckboxSelectMultiple,
        error_messages={"invalid_choice": _("“%(value)s” is none of these.")},
    )
    about_1 = Choice(label=_("It is about"), required=False)
    about_2 = Choice(label=_("and about"), required=False)
    about_3 = Choice(label=_("and about"), required=False)
    finding = Choice(label=_("Found as"), required=False)
    new_ready_on = Day(_("Ready then on"), required=False)

    def components(self) -> tuple[str, ...]:
        """Codes of the components named, each once."""
        named = (self.cleaned_data[f"about_{number}"] for number in range(1, PARTS + 1))
        return tuple(dict.fromkeys(code for code in named if code))


class BenchExtraForm(ExtraForm):
    """Head and lines, with what the catalogue and the job's findings offer to pick from."""

    head: BenchHead

    def __init__(
        self,
        data: Mapping[str, Any] | None,
        *,
        currency: str,
        decimals: int,
        tax_codes: Sequence[tuple[str, str]],
        components: Sequence[tuple[str, str]],
        findings: Sequence[tuple[str, str]],
        begun: Begun | None = None,
    ) -> None:
        super().__init__(data, currency=currency, decimals=decimals, tax_codes=tax_codes, begun=begun)
        self.head = BenchHead(data, prefix=HEAD, initial=begun.head if begun else None)
        for number in range(1, PARTS + 1):
            offer(self.head, f"about_{number}", [("", say("choose")), *components])
        offer(self.head, "finding", [("", say("no finding")), *findings])


class CustomerAnswerForm(SettingsForm):
    """What the customer says to extra work on his own page: nothing is picked beforehand."""

    answer = Picked(
        label=_("What do you say?"),
        choices=[("yes", _("Yes, do it")), ("no", _("No, leave it"))],
        widget=forms.RadioSelect,
    )
    name = Line(_("Your name"), 200, required=True)
    note = Line(_("Anything you want to add"), 300)
    signed = forms.BooleanField(required=False)

    def __init__(self, data: Any = None, *, rider_safety: bool) -> None:
        self.rider_safety = rider_safety
        super().__init__(data, prefix="extra")
        self.fields["name"].widget.attrs["autocomplete"] = "name"
        self.fields["name"].error_messages["required"] = say("Nothing is given: we need to know who answers.")

    def clean(self) -> dict[str, Any]:
        given = super().clean() or {}
        if self.rider_safety and given.get("answer") == "no" and not given.get("signed"):
            self.add_error(
                "signed",
                say(
                    "Not ticked: a part that can lock the rear wheel or oil the tyre stays as it is only by "
                    "your signed refusal."
                ),
            )
        return given

    def how(self) -> str:
        """How it was answered, as the record keeps it."""
        if self.cleaned_data["signed"]:
            return to_say("In writing, on the customer's own page, signed as a refusal")
        return to_say("In writing, on the customer's own page")
