"""The filters of the catalogue's lists: a search over every word typed, and choices."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import django_filters
from django import forms
from django.db.models import Model, QuerySet
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy
from django_filters.fields import ModelChoiceField

from catalogue.calc.said import say
from catalogue.calc.search_key import search_key
from catalogue.models import Component, EngineType, Supplier
from catalogue.models.choices import (
    Confidence,
    Consequence,
    FindingGrade,
    Grade,
    JudgedBy,
    KindOfWork,
    LifeBasis,
    SupplierKind,
    WorkUnit,
)

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

LONGEST_SEARCH = 200


class EntryFilter(django_filters.FilterSet):
    """Search by words: every one must stand in the entry, whatever its case, accents or stops."""

    q = django_filters.CharFilter(
        method="with_words",
        label=_("Find"),
        max_length=LONGEST_SEARCH,
        widget=forms.TextInput({"type": "search"}),
    )

    def with_words(self, found: QuerySet[Any], name: str, value: str) -> QuerySet[Any]:
        for word in search_key(value).split():
            found = found.filter(search_key__contains=word)
        return found


def choice(label: StrOrPromise, choices: Any, **more: Any) -> django_filters.ChoiceFilter:
    """One of a few words, or all."""
    return django_filters.ChoiceFilter(label=label, choices=choices, empty_label=_("all"), **more)


class _EntryField(ModelChoiceField):
    """Entries by their names in the reader's language."""

    def label_from_instance(self, obj: Model) -> str:
        return say(str(obj))


class Entries(django_filters.ModelChoiceFilter):
    """Entries by name, as `entry` makes them."""

    field_class = _EntryField


def entry(label: StrOrPromise, model: type[Model], **more: Any) -> Entries:
    """One entry of another kind, or all."""
    return Entries(label=label, queryset=model._default_manager.all(), empty_label=_("all"), **more)


def groups(_request: Any = None) -> list[tuple[str, str]]:
    """The groups that components are in."""
    found = Component.objects.order_by("group").values_list("group", flat=True).distinct()
    return [(group, say(group.replace("_", " "))) for group in found]


class PartFilter(EntryFilter):
    engine_type = entry(_("Engine type"), EngineType)
    grade = choice(_("Grade"), Grade.choices)
    group = choice(_("Group"), groups, field_name="component__group")
    component = entry(_("Component"), Component)
    supplier = entry(_("Supplier"), Supplier, field_name="offers__supplier", distinct=True)


class ComponentFilter(EntryFilter):
    group = choice(_("Group"), groups)
    judged_by = choice(_("Judged by"), JudgedBy.choices)
    consequence_class = choice(_("If it goes"), Consequence.choices)
    life_confidence = choice(_("Sure of its life"), [pair for pair in Confidence.choices if pair[0]])
    rider = django_filters.BooleanFilter(
        label=_("Rider safety"),
        field_name="rider_hazards",
        lookup_expr="exact",
        method="hazards",
        widget=forms.Select(
            choices=[("", _("all")), ("true", _("may lock the wheel or oil the tyre")), ("false", _("no"))]
        ),
    )

    def hazards(self, found: QuerySet[Component], name: str, value: bool) -> QuerySet[Component]:
        return found.exclude(rider_hazards="") if value else found.filter(rider_hazards="")


class OperationFilter(EntryFilter):
    kind = choice(_("Kind of work"), KindOfWork.choices)
    component = entry(
        pgettext_lazy("catalogue", "About"), Component, field_name="about__component", distinct=True
    )


class MachineWorkFilter(EntryFilter):
    unit = choice(_("Priced by the"), WorkUnit.choices)
    vendor = entry(_("Done by"), Supplier)


class DutyFilter(EntryFilter):
    basis = choice(_("Lives go by"), LifeBasis.choices)


class FindingFilter(EntryFilter):
    component = entry(pgettext_lazy("catalogue", "On"), Component)
    grade = choice(_("What it asks"), FindingGrade.choices)


class LimitFilter(EntryFilter):
    component = entry(pgettext_lazy("catalogue", "On"), Component)
    from_manual = choice(
        pgettext_lazy("catalogue", "From"),
        [(True, _("your manual")), (False, _("default, not from your manual"))],
    )


class SupplierFilter(EntryFilter):
    kind = choice(_("Delivers"), SupplierKind.choices)


class FactFilter(EntryFilter):
    confidence = choice(_("Sure of it"), [pair for pair in Confidence.choices if pair[0]])
