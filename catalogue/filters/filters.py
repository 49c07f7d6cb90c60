"""The filters of the catalogue's lists: a search over every word typed, and choices."""

from __future__ import annotations

from typing import Any

import django_filters
from django import forms
from django.db.models import Model, QuerySet

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

LONGEST_SEARCH = 200


class EntryFilter(django_filters.FilterSet):
    """Search by words: every one must stand in the entry, whatever its case, accents or stops."""

    q = django_filters.CharFilter(
        method="with_words",
        label="Find",
        max_length=LONGEST_SEARCH,
        widget=forms.TextInput({"type": "search"}),
    )

    def with_words(self, found: QuerySet[Any], name: str, value: str) -> QuerySet[Any]:
        for word in search_key(value).split():
            found = found.filter(search_key__contains=word)
        return found


def choice(label: str, choices: Any, **more: Any) -> django_filters.ChoiceFilter:
    """One of a few words, or all."""
    return django_filters.ChoiceFilter(label=label, choices=choices, empty_label="all", **more)


def entry(label: str, model: type[Model], **more: Any) -> django_filters.ModelChoiceFilter:
    """One entry of another kind, or all."""
    return django_filters.ModelChoiceFilter(
        label=label, queryset=model._default_manager.all(), empty_label="all", **more
    )


def groups(_request: Any = None) -> list[tuple[str, str]]:
    """The groups that components are in."""
    found = Component.objects.order_by("group").values_list("group", flat=True).distinct()
    return [(group, group.replace("_", " ")) for group in found]


class PartFilter(EntryFilter):
    engine_type = entry("Engine type", EngineType)
    grade = choice("Grade", Grade.choices)
    group = choice("Group", groups, field_name="component__group")
    component = entry("Component", Component)
    supplier = entry("Supplier", Supplier, field_name="offers__supplier", distinct=True)


class ComponentFilter(EntryFilter):
    group = choice("Group", groups)
    judged_by = choice("Judged by", JudgedBy.choices)
    consequence_class = choice("If it goes", Consequence.choices)
    life_confidence = choice("Sure of its life", [pair for pair in Confidence.choices if pair[0]])
    rider = django_filters.BooleanFilter(
        label="Rider safety",
        field_name="rider_hazards",
        lookup_expr="exact",
        method="hazards",
        widget=forms.Select(
            choices=[("", "all"), ("true", "may lock the wheel or oil the tyre"), ("false", "no")]
        ),
    )

    def hazards(self, found: QuerySet[Component], name: str, value: bool) -> QuerySet[Component]:
        return found.exclude(rider_hazards="") if value else found.filter(rider_hazards="")


class OperationFilter(EntryFilter):
    kind = choice("Kind of work", KindOfWork.choices)
    component = entry("About", Component, field_name="about__component", distinct=True)


class MachineWorkFilter(EntryFilter):
    unit = choice("Priced by the", WorkUnit.choices)
    vendor = entry("Done by", Supplier)


class DutyFilter(EntryFilter):
    basis = choice("Lives go by", LifeBasis.choices)


class FindingFilter(EntryFilter):
    component = entry("On", Component)
    grade = choice("What it asks", FindingGrade.choices)


class LimitFilter(EntryFilter):
    component = entry("On", Component)
    from_manual = choice("From", [(True, "your manual"), (False, "default, not from your manual")])


class SupplierFilter(EntryFilter):
    kind = choice("Delivers", SupplierKind.choices)


class FactFilter(EntryFilter):
    confidence = choice("Sure of it", [pair for pair in Confidence.choices if pair[0]])
