"""A list as a page: searched, narrowed, sorted, in pages, and the same rows as a file to take away."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django_filters.views import FilterView
from django_tables2 import SingleTableMixin

from catalogue.calc.said import say_inside
from catalogue.documents.table_files import TableFile, as_csv, as_workbook
from catalogue.views.file_answer import file_answer
from quotes.tables.ordered import Ordered

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

PER_PAGE = 25
FILES = {
    "csv": (as_csv, "text/csv; charset=utf-8"),
    "xlsx": (as_workbook, "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"),
}
NOT_NARROWING = frozenset({"sort", "page", "as", "customers"})


class TablePage(SingleTableMixin, FilterView):
    """Give it `title`, `one`, `table_class`, `filterset_class`, `template_name` and `rows`."""

    title: StrOrPromise
    one: StrOrPromise
    many: StrOrPromise = ""
    """What several are called where the title does not say it."""
    at: str = ""
    """Where the list stands on a page with more above it, as #listed: narrowing and paging stay there."""
    table_pagination = {"per_page": PER_PAGE}

    def several(self) -> str:
        """What its rows are called in a sentence."""
        return str(self.many) or say_inside(str(self.title))

    def rows(self) -> QuerySet[Any]:
        """Every row there is, with its joins."""
        raise NotImplementedError

    def get(self, request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        response: HttpResponse = super().get(request, *args, **kwargs)
        taken_as = request.GET.get("as", "")
        return self.taken_away(taken_as) if taken_as in FILES else response

    def get_queryset(self) -> QuerySet[Any]:
        return self.rows()

    def bare_rows(self) -> QuerySet[Any]:
        """The same rows without their joins, to be counted and narrowed."""
        return self.rows()

    def get_table_data(self) -> Ordered:
        return Ordered(self.object_list, self._counted(), self.rows())

    def _counted(self) -> QuerySet[Any]:
        """What the filters leave, to be counted."""
        if not self.filterset.is_bound:
            return self.bare_rows()
        fits = self.filterset.is_valid()
        found: QuerySet[Any] = self.filterset.filter_queryset(self.bare_rows()) if fits else self.object_list
        return found

    def get_context_data(self, **kwargs: Any) -> dict[str, Any]:
        context: dict[str, Any] = super().get_context_data(**kwargs)
        shown = context["table"].paginator.count
        narrowed = any(value for key, value in self.request.GET.items() if key not in NOT_NARROWING)
        total = self.bare_rows().count() if narrowed else shown
        return context | {"shown": shown, "total": total, "narrowed": narrowed, "page": self}

    def taken_away(self, taken_as: str) -> HttpResponse:
        """Every row that the filters leave, in the order shown, as a file."""
        table = self.get_table(**self.get_table_kwargs())
        if order := self.request.GET.getlist("sort"):
            table.order_by = order
        heads, *rows = table.as_values()
        write, content_type = FILES[taken_as]
        name = f"{str(self.title).lower()}.{taken_as}"
        return file_answer(write(TableFile(str(self.title), heads, rows)), name, content_type)
