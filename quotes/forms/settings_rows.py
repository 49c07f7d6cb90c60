"""The lists on the settings page: tax codes, hourly rates, markup, classes and closed days, a row each."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import timedelta
from decimal import Decimal
from typing import TYPE_CHECKING, Any, cast

from django import forms
from django.forms.formsets import BaseFormSet, formset_factory
from django.utils.text import slugify

from quotes.calc.shop import LINE_KINDS, ClassRule, LineKind, MarkupBand, TaxCode, TaxComponent
from quotes.calc.workshop_settings import KIND_NAMES, Closed
from quotes.forms.fields import quoted
from quotes.forms.figures import Choice, Day, Figure, Line, SettingsForm
from quotes.models import KindOfWork, TaxCategory
from quotes.models.rules import ClassRule as ClassRow

LAYERS = 3
"""A state, a county and a city."""
MOST_CLOSED = timedelta(days=366)


class Row(SettingsForm):
    """A row that may be left blank, and can be taken out."""

    DELETE = forms.BooleanField(label="Take out", required=False)

    def has_changed(self) -> bool:
        """Whether anything stands in it: a row that is blank, or taken out, is no row."""
        if self["DELETE"].data:
            return False
        ticks = {name for name, field in self.fields.items() if isinstance(field, forms.BooleanField)}
        selects = {name for name, field in self.fields.items() if isinstance(field, forms.ChoiceField)}
        typed = (str(self[name].data or "").strip() for name in self.fields if name not in ticks | selects)
        return any(typed) or any(self[name].data for name in ticks)


class TaxCodeRow(Row):
    code = Line("Tax code", 20)
    category = Choice(label="Category", choices=TaxCategory.choices)
    reason = Line("Why nothing is charged, where nothing is", 200)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        for layer in range(LAYERS):
            self.fields[f"name_{layer}"] = Line("Charged by" if layer == 0 else "and by", 60)
            self.fields[f"rate_{layer}"] = Figure("Rate", "0", "100", 4, unit="%", required=False)
        for kind in LINE_KINDS:
            self.fields[f"on_{kind}"] = forms.BooleanField(label=KIND_NAMES[kind], required=False)

    def layer_cells(self) -> list[tuple[forms.BoundField, forms.BoundField]]:
        return [(self[f"name_{layer}"], self[f"rate_{layer}"]) for layer in range(LAYERS)]

    def kind_cells(self) -> list[forms.BoundField]:
        return [self[f"on_{kind}"] for kind in LINE_KINDS]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not data.get("code") and "code" not in self.errors:
            self.add_error("code", "Nothing is given: a tax code needs a short name, such as sales or S20.")
        rate = sum((self._layer(layer) for layer in range(LAYERS)), Decimal(0))
        if data.get("category") == TaxCategory.STANDARD and not rate and not self.errors:
            self.add_error("rate_0", "Category S charges tax: a rate above 0 is needed.")
        if data.get("category") not in (None, TaxCategory.STANDARD) and rate:
            self.add_error(
                "category",
                f"This category charges nothing, but the rates add up to {rate} %: only S has a rate.",
            )
        if data.get("category") == TaxCategory.EXEMPT and not data.get("reason"):
            self.add_error("reason", "Nothing is given: an exemption needs its reason, which is printed.")
        return data

    def _layer(self, layer: int) -> Decimal:
        name, rate = self.cleaned_data.get(f"name_{layer}"), self.cleaned_data.get(f"rate_{layer}")
        if name and rate is None and f"rate_{layer}" not in self.errors:
            self.add_error(f"rate_{layer}", f"Nothing is given: {quoted(name)} needs its rate.")
        if rate is not None and not name:
            self.add_error(
                f"name_{layer}", f"Nothing is given: who charges {rate} %? Such as state, county or VAT."
            )
        return rate or Decimal(0)

    def value(self) -> TaxCode:
        data = self.cleaned_data
        layers = tuple(
            TaxComponent(data[f"name_{layer}"], data[f"rate_{layer}"])
            for layer in range(LAYERS)
            if data[f"name_{layer}"]
        )
        return TaxCode(data["code"], data["category"], layers, data["reason"])

    @staticmethod
    def filled(code: TaxCode, kinds: Sequence[LineKind]) -> dict[str, Any]:
        layers = {f"name_{at}": layer.name for at, layer in enumerate(code.components[:LAYERS])}
        rates = {f"rate_{at}": layer.rate_pct for at, layer in enumerate(code.components[:LAYERS])}
        ticks = {f"on_{kind}": True for kind in kinds}
        return {"code": code.code, "category": code.category, "reason": code.reason} | layers | rates | ticks


class BandRow(Row):
    cost_from = Figure("From a cost of", "0", "9999999.99", required=False)
    markup_pct = Figure("Markup", "0", "1000", unit="per cent", required=False)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        for name, needs in (("cost_from", "a cost that the band begins at"), ("markup_pct", "a markup")):
            if data.get(name) is None and name not in self.errors:
                self.add_error(name, f"Nothing is given: {needs} is needed.")
        return data

    def value(self) -> MarkupBand:
        return MarkupBand(self.cleaned_data["cost_from"], self.cleaned_data["markup_pct"])


class ClassRuleRow(Row):
    code = forms.CharField(widget=forms.HiddenInput, required=False, max_length=40)
    name = Line("Class", 80)
    allows_compression = forms.BooleanField(label="compression", required=False)
    allows_cams = forms.BooleanField(label="cams", required=False)
    allows_porting = forms.BooleanField(label="porting", required=False)
    allows_weight = forms.BooleanField(label="weight", required=False)

    def allow_cells(self) -> list[forms.BoundField]:
        return [self[f"allows_{change}"] for change in ClassRow.CHANGES]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not data.get("name") and "name" not in self.errors:
            self.add_error("name", "Nothing is given: a class needs its name.")
        elif data.get("name") and not slugify(data["name"]):
            self.add_error("name", f"{quoted(data['name'])} holds no letter or figure to tell it by.")
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
    first = Day("Closed from", required=False)
    last = Day("to, that day included", required=False)
    note = Line("Why", 80)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        first, last = data.get("first"), data.get("last")
        if first is None and "first" not in self.errors:
            self.add_error("first", "Nothing is given: a day is needed.")
        elif first and last and last < first:
            self.add_error("last", f"“{last}” is before {first}: it must be that day or later.")
        elif first and last and last - first > MOST_CLOSED:
            self.add_error(
                "last", f"“{last}” is more than a year after {first}: at most a year can be closed."
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
            self.fields[kind] = Figure(label.capitalize(), "0", "10000", unit="an hour")


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
                    self.only_once, f"{quoted(value)} stands here {times[value]} times: once is enough."
                )


def rows_of(form: type[Row], only_once: str, extra: int = 1) -> type[Rows]:
    """A list of rows of one kind, with some blank ones at its end."""
    base = type(f"{form.__name__}s", (Rows,), {"only_once": only_once})
    made = formset_factory(form, formset=base, extra=extra, max_num=100, absolute_max=200)
    return cast(type[Rows], made)


TaxCodeRows = rows_of(TaxCodeRow, "code")
BandRows = rows_of(BandRow, "cost_from")
ClassRows = rows_of(ClassRuleRow, "name")
ClosedRows = rows_of(ClosedRow, "first")
