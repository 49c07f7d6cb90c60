"""Job margin, for the owner: what was quoted against what it took, by build, by tier, by engine type."""

from __future__ import annotations

from datetime import timedelta
from functools import cached_property
from typing import Any

from django.db.models import QuerySet
from django.urls import path
from django.utils.translation import gettext_lazy as _

from quotes.calc.books.margin import BuildMargin, Margins, margins_of
from quotes.filters.books.margin import MarginFilter
from quotes.models import Acceptance
from quotes.queries.books.chart import books_settings
from quotes.queries.books.margins import last_invoiced, margins
from quotes.tables.books.margin import MarginTable
from quotes.views.books.listed import BooksList

SHOWN = timedelta(days=365)
"""Who asks for no days gets the builds of the last year of invoices: all there ever were take seconds."""


class JobMargin(BooksList):
    """Builds of which something was invoiced. With the first day left empty, all there ever were."""

    title = _("Job margin")
    one, many = _("build"), _("builds")
    table_class = MarginTable
    filterset_class = MarginFilter
    template_name = "quotes/books/margin.html"
    at = "#listed"

    def rows(self) -> QuerySet[Any]:
        """What the filter offers is read from here; the rows shown are worked out."""
        return Acceptance.objects.exclude(invoices=None).distinct()

    def get_filterset_kwargs(self, filterset_class: Any) -> dict[str, Any]:
        kwargs: dict[str, Any] = super().get_filterset_kwargs(filterset_class)
        data = self.request.GET.copy()
        if "first" not in data and "last" not in data and (last := last_invoiced()):
            data["first"] = (last - SHOWN).isoformat()
        return kwargs | {"data": data}

    @cached_property
    def margins(self) -> Margins:
        """Those that the filters leave, added up anew."""
        form = self.filterset.form
        told = form.cleaned_data if form.is_valid() else {}
        if form.errors:
            return margins_of(())
        every = margins(told.get("first"), told.get("last")).builds
        return margins_of(build for build in every if _fits(build, told))

    def get_table_data(self) -> list[BuildMargin]:  # type: ignore[override]
        return list(self.margins.builds)

    def get_context_data(self, **kwargs: Any) -> dict[str, Any]:
        context = super().get_context_data(**kwargs)
        no_cost = not books_settings().labour_cost_an_hour
        return context | {"margins": self.margins, "no_cost_of_hour": no_cost}


def _fits(build: BuildMargin, told: dict[str, Any]) -> bool:
    words = f"{build.name} {build.customer}".casefold()
    return (
        all(word in words for word in (told.get("q") or "").casefold().split())
        and (not told.get("tier") or build.tier == told["tier"])
        and (not told.get("type") or build.engine_type == told["type"])
    )


urlpatterns = [path("books/margin/", JobMargin.as_view(), name="margin")]
