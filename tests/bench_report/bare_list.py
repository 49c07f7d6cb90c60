"""A list as django-filter and django-tables2 make it: the same rows, table and filters, and no more."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.template import engines
from django.urls import resolve
from django_filters.views import FilterView
from django_tables2 import SingleTableMixin

LIST = """<!doctype html><html lang="en"><head><title>{{ address }}</title></head><body>
{% load django_tables2 %}<form method="get">{{ filter.form.as_div }}<button>Show</button></form>
{% render_table table "django_tables2/table.html" %}</body></html>"""


def bare_list(address: str) -> Callable[[HttpRequest], HttpResponse]:
    """The view for the list at an address of ours: what is asked of the database is the same."""
    match = resolve(address)
    ours, given = match.func.view_class, match.kwargs  # type: ignore[attr-defined]
    template = engines["django"].from_string(LIST)

    class BareList(SingleTableMixin, FilterView):  # type: ignore[misc]
        table_pagination = ours.table_pagination

        def setup(self, request: HttpRequest, *args: Any, **kwargs: Any) -> None:
            super().setup(request, *args, **kwargs)
            self.page = ours()
            self.page.setup(request, **given)

        def get_queryset(self) -> Any:
            return self.page.get_queryset()

        def get_filterset_class(self) -> Any:
            return self.page.get_filterset_class()

        def get_table_class(self) -> Any:
            return self.page.get_table_class()

        def get_table_kwargs(self) -> dict[str, Any]:
            found: dict[str, Any] = self.page.get_table_kwargs()
            return found

        def get_table_data(self) -> Any:
            self.page.object_list, self.page.filterset = self.object_list, self.filterset
            return self.page.get_table_data()

        def render_to_response(self, context: dict[str, Any], **_: Any) -> HttpResponse:
            return HttpResponse(template.render({**context, "address": address}, self.request))

    view: Callable[[HttpRequest], HttpResponse] = BareList.as_view()
    return view
