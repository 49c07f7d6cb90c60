"""The lists of the catalogue, and the same as a file to take away."""

from __future__ import annotations

from typing import Any

from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.utils import translation
from django_filters.views import FilterView
from django_tables2 import SingleTableMixin

from catalogue.documents.table_files import TableFile, as_csv, as_workbook
from catalogue.queries import engine_type_choices
from catalogue.tables.ordered import TotallyOrdered
from catalogue.tables.tables import hours_columns
from catalogue.views.access import may_change
from catalogue.views.file_answer import file_answer
from catalogue.views.sheets import SHEETS, KindSheet

PER_PAGE = 25
FILES = {
    "csv": (as_csv, "text/csv; charset=utf-8"),
    "xlsx": (as_workbook, "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"),
}


class EntryList(SingleTableMixin, FilterView):
    """One list: searched, narrowed, sorted, in pages."""

    sheet: KindSheet
    template_name = "catalogue/list.html"
    context_table_name = "table"
    table_pagination = {"per_page": PER_PAGE}

    def setup(self, request: HttpRequest, *args: Any, **kwargs: Any) -> None:
        super().setup(request, *args, **kwargs)
        self.sheet = SHEETS[kwargs["kind"]]

    def get(self, request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        response: HttpResponse = super().get(request, *args, **kwargs)
        taken_as = request.GET.get("as", "")
        return self.taken_away(taken_as) if taken_as in FILES else response

    def get_queryset(self) -> QuerySet[Any]:
        return self.sheet.found()

    def get_filterset_class(self) -> Any:
        return self.sheet.narrowed_by

    def get_table_class(self) -> Any:
        return self.sheet.table

    def get_table_data(self) -> TotallyOrdered:
        return TotallyOrdered(self.object_list)

    def get_table_kwargs(self) -> dict[str, Any]:
        if self.sheet.kind == "operations":
            return {"extra_columns": hours_columns(engine_type_choices())}
        return {}

    def get_context_data(self, **kwargs: Any) -> dict[str, Any]:
        context: dict[str, Any] = super().get_context_data(**kwargs)
        shown = context["table"].paginator.count
        narrowed = any(value for key, value in self.request.GET.items() if key not in ("sort", "page", "as"))
        total = self.sheet.found().count() if narrowed else shown
        return {
            **context,
            "sheet": self.sheet,
            "sheets": SHEETS.values(),
            "shown": shown,
            "total": total,
            "narrowed": narrowed,
            "owner": may_change(self.request),
        }

    def taken_away(self, taken_as: str) -> HttpResponse:
        """Every row that the filters leave, in the order shown, as a file."""
        table = self.get_table(**self.get_table_kwargs())
        heads, *rows = table.as_values()
        write, content_type = FILES[taken_as]
        with translation.override("en"):
            name = self.sheet.many.replace(" ", "-")
        file = TableFile(str(self.sheet.title), heads, rows)
        return file_answer(write(file), f"{name}.{taken_as}", content_type)
