"""A list as django-filter and django-tables2 make it: the same rows, table and filters, and no more."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.template import engines
from django.urls import resolve
from django_filters.views import FilterView
from django_tables2 import SingleTableMixin

LIST = """<!doctype html><html lang="en"><head><title>{{ address }}</title></head><body>
{% load django_tables2 %}<form method="get">{{ filter.form.as_div }}<button>Show</button></form>
{% render_table table "django_tables2/table.html" %}</body></html>"""


class BareList(SingleTableMixin, FilterView):  # type: ignore[misc]
    """What a page of ours says of its rows, put into the libraries' own view."""

    ours: Any = None
    given: Mapping[str, Any] = {}
    address = ""

    def setup(self, request: HttpRequest, *args: Any, **kwargs: Any) -> None:
        super().setup(request, *args, **kwargs)
        self.page = self.ours()
        self.page.setup(request, **self.given)

    def get_table_pagination(self, table: Any) -> Any:
        return self.page.get_table_pagination(table)

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
        return HttpResponse(_template().render({**context, "address": self.address}, self.request))


@cache
def _template() -> Any:
    return engines["django"].from_string(LIST)


def bare_list(address: str) -> Callable[[HttpRequest], HttpResponse]:
    """The view for the list at an address of ours: what is asked of the database is the same."""
    match = resolve(address)
    view: Callable[[HttpRequest], HttpResponse] = BareList.as_view(
        ours=match.func.view_class,  # type: ignore[attr-defined]
        given=match.kwargs,
        address=address,
    )
    return view
