"""The lists on the settings page: tax codes, hourly rates, markup, classes and closed days, a row each."""

from __future__ import annotations

from collections import Counter
from datetime import timedelta
from typing import TYPE_CHECKING, Any, cast

from django import forms
from django.forms.formsets import BaseFormSet, formset_factory
from django.utils.text import capfirst, slugify
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.calc.shop import ClassRule, MarkupBand
from quotes.calc.workshop_settings import Closed
from quotes.forms.fields import quoted
from quotes.forms.figures import Day, Figure, Line, SettingsForm
from quotes.models import KindOfWork
from quotes.models.rules import ClassRule as ClassRow

MOST_CLOSED = timedelta(days=366)


class Row(SettingsForm):
    """A row that may be left blank, and can be taken out."""

    DELETE = forms.BooleanField(label=_("Take out"), required=False)

    def has_changed(self) -> bool:
        """Whether anything stands in it: a row that is blank, or taken out, is no row."""
        if self["DELETE"].data:
            return False
        ticks = {name for name, field in self.fields.items() if isinstance(field, forms.BooleanField)}
        selects = {name for name, field in self.fields.items() if isinstance(field, forms.ChoiceField)}
        typed = (str(self[name].data or "").strip() for name in self.fields if name not in ticks | selects)
        return any(typed) or any(self[name].data for name in ticks)


class BandRow(Row):
    cost_from = Figure(_("From a cost of"), "0", "9999999.99", required=False)
    markup_pct = Figure(_("Markup"), "0", "1000", unit=_("per cent"), required=False)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        wanted = {
            "cost_from": say("Nothing is given: a cost that the band begins at is needed."),
            "markup_pct": say("Nothing is given: a markup is needed."),
        }
        for name, nothing in wanted.items():
            if data.get(name) is None and name not in self.errors:
                self.add_error(name, nothing)
        return data

    def value(self) -> MarkupBand:
        return MarkupBand(self.cleaned_data["cost_from"], self.cleaned_data["markup_pct"])


class ClassRuleRow(Row):
    code = forms.CharField(widget=forms.HiddenInput, required=False, max_length=40)
    name = Line(_("Class"), 80)
    allows_compression = forms.BooleanField(label=_("compression"), required=False)
    allows_cams = forms.BooleanField(label=_("cams"), required=False)
    allows_porting = forms.BooleanField(label=_("porting"), required=False)
    allows_weight = forms.BooleanField(label=_("weight"), required=False)

    def allow_cells(self) -> list[forms.BoundField]:
        return [self[f"allows_{change}"] for change in ClassRow.CHANGES]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not data.get("name") and "name" not in self.errors:
            self.add_error("name", say("Nothing is given: a class needs its name."))
        elif data.get("name") and not slugify(data["name"]):
            self.add_error(
                "name", say("{name} holds no letter or figure to tell it by.", name=quoted(data["name"]))
            )
        return data

    def value(self) -> ClassRule:
        data = self.cleaned_data
        allows = frozenset(change for change in ClassRow.CHANGES if data[f"allows_{change}"])
        return ClassRule(data["code"] or slugify(data["name"])[:40], data["name"], allows)

    @staticmethod
    def filled(rule: ClassRule) -> dict[str, Any]:
        ticks = {f"allows_{change}": change in rule.allows for change in ClassRow.CHANGES}
        return {"code": rule.code, "name": rule.name} | ticks


class ClosedRow(Row):
    first = Day(_("Closed from"), required=False)
    last = Day(_("to, that day included"), required=False)
    note = Line(_("Why"), 80)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        first, last = data.get("first"), data.get("last")
        if first is None and "first" not in self.errors:
            self.add_error("first", say("Nothing is given: a day is needed."))
        elif first and last and last < first:
            self.add_error(
                "last",
                say("“{last}” is before {first}: it must be that day or later.", last=last, first=first),
            )
        elif first and last and last - first > MOST_CLOSED:
            self.add_error(
                "last",
                say(
                    "“{last}” is more than a year after {first}: at most a year can be closed.",
                    last=last,
                    first=first,
                ),
            )
        return data

    def value(self) -> Closed:
        data = self.cleaned_data
        return Closed(data["first"], data["last"] or data["first"], data["note"])


class RatesForm(SettingsForm):
    """The price of an hour of each kind of work."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        for kind, label in KindOfWork.choices:
            self.fields[kind] = Figure(capfirst(label), "0", "10000", unit=_("an hour"))


if TYPE_CHECKING:
    Base = BaseFormSet[Any]
else:
    Base = BaseFormSet


class Rows(Base):
    """Rows of one kind; what is said once may not be said twice."""

    only_once = ""
    """The field that must differ from row to row."""

    def standing(self) -> list[Any]:
        """The rows that are neither blank nor taken out."""
        return [form for form in self.forms if form.has_changed()]

    def initial_form_count(self) -> int:
        """None: a row that was there may be blanked as well as any other."""
        return 0

    def total_form_count(self) -> int:
        return super().total_form_count() if self.is_bound else len(self.initial or ()) + self.extra

    def add_fields(self, form: forms.Form, index: int | None) -> None:
        """The rows bring their own tick to take them out."""

    def clean(self) -> None:
        if any(self.errors) or not self.only_once:
            return
        times = Counter(form.cleaned_data[self.only_once] for form in self.standing())
        for form in self.standing():
            value = form.cleaned_data[self.only_once]
            if times[value] > 1:
                form.add_error(
                    self.only_once,
                    say(
                        "{value} stands here {times} times: once is enough.",
                        value=quoted(value),
                        times=times[value],
                    ),
                )


def rows_of(form: type[Row], only_once: str, extra: int = 1) -> type[Rows]:
    """A list of rows of one kind, with some blank ones at its end."""
    base = type(f"{form.__name__}s", (Rows,), {"only_once": only_once})
    made = formset_factory(form, formset=base, extra=extra, max_num=100, absolute_max=200)
    return cast(type[Rows], made)


BandRows = rows_of(BandRow, "cost_from")
ClassRows = rows_of(ClassRuleRow, "name")
ClosedRows = rows_of(ClosedRow, "first")
