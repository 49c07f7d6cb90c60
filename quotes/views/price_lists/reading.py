"""Handing in a supplier's price list, saying how it is read, and fetching the rows that were refused."""

from __future__ import annotations

from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from catalogue.actions.price_list.handing_in import hand_in, keep_first_lines, keep_reading
from catalogue.actions.refused import Refused
from catalogue.calc.price_list.reading import Reading
from catalogue.calc.price_list.refused import sound_rows, under_heads
from catalogue.calc.said import say
from catalogue.models import ListState, ListTerms, PriceList
from catalogue.views.file_answer import file_answer
from quotes.forms.price_list_file import PriceListFileForm, ReadingForm, chosen_so_far
from quotes.imports.faults import FileFault
from quotes.imports.price_list.read import read_price_list
from quotes.imports.price_list.refused_file import refused_file
from quotes.imports.price_list.row_values import NAMES
from quotes.imports.price_list.sample import Suggested
from quotes.imports.price_list.suggest import look, suggest
from quotes.imports.price_list.workbook import FirstLines
from quotes.views.every_request.person import signed_in

OPEN = (ListState.HANDED_IN, ListState.CHECKED)


@require_http_methods(["GET", "POST"])
def price_list_new(request: HttpRequest) -> HttpResponse:
    """Where a file is handed in; one that can't be read at all is not kept."""
    if request.method != "POST":
        form = PriceListFileForm(initial={"supplier": request.GET.get("supplier", "")})
        return render(request, "quotes/prices/new.html", {"form": form})
    form = PriceListFileForm(request.POST, request.FILES)
    if form.is_valid():
        file: UploadedFile[bytes] = form.cleaned_data["file"]
        content, supplier = file.read(), form.cleaned_data["supplier"]
        first_lines: FirstLines = {}
        try:
            suggest(content, file.name or "", _last_reading(supplier), first_lines)
        except FileFault as fault:
            form.add_error("file", str(fault))
        else:
            now, by = timezone.now(), signed_in(request)
            name = file.name or ""
            kept = hand_in(
                supplier=supplier, name=name, content=content, by=by, now=now, first_lines=first_lines
            )
            if not kept.reading:
                return redirect("price-list-columns", kept.pk)
            messages.info(request, say("The same file was handed in already: this is it."))
            return redirect("price-list", kept.pk)
    return render(request, "quotes/prices/new.html", {"form": form}, status=422)


@require_http_methods(["GET", "POST"])
def price_list_columns(request: HttpRequest, pk: int) -> HttpResponse:
    """Which column is what: as the supplier's last list was read, as was chosen before, or as it looks."""
    row = get_object_or_404(PriceList.objects.select_related("supplier"), pk=pk)
    if row.state not in OPEN:
        return redirect("price-list", pk)
    content = row.content
    if request.method != "POST":
        return _page(request, row, _suggested(row, content))
    first_lines: FirstLines = dict(row.first_lines)
    try:
        suggested = look(content, chosen_so_far(request.POST), first_lines)
    except FileFault as fault:
        return _page(request, row, _suggested(row, content), str(fault))
    form = ReadingForm(suggested, request.POST)
    if not form.is_valid():
        return _page(request, row, suggested, form=form)
    suggested = look(content, form.value(), first_lines)
    if first_lines != row.first_lines:
        keep_first_lines(pk=pk, first_lines=first_lines)
    if "keep" not in request.POST:
        return _page(request, row, suggested, form=form)
    try:
        whole = row.whole and not (suggested.refused_before and not row.reading)
        keep_reading(pk=pk, reading=suggested.reading.model_dump(mode="json"), whole=whole)
    except Refused as refused:
        messages.error(request, str(refused))
    return redirect("price-list", pk)


def _suggested(row: PriceList, content: bytes) -> Suggested:
    first_lines: FirstLines = dict(row.first_lines)
    if chosen := Reading.kept(row.reading):
        return look(content, chosen, first_lines)
    return suggest(content, row.name, _last_reading(row.supplier_id), first_lines)


def _last_reading(supplier: str) -> Reading | None:
    """How the supplier's last list was read."""
    terms = ListTerms.objects.filter(supplier=supplier).first()
    return Reading.kept(terms.reading) if terms else None


def _page(
    request: HttpRequest,
    row: PriceList,
    suggested: Suggested,
    fault: str = "",
    form: ReadingForm | None = None,
) -> HttpResponse:
    data = request.POST if fault else None
    form = form or ReadingForm(suggested, data)
    if fault:
        form.add_error(None, fault)
    context = {"row": row, "suggested": suggested, "form": form, "marks": _marks(suggested)}
    return render(request, "quotes/prices/columns.html", context, status=422 if form.errors else 200)


def _marks(suggested: Suggested) -> list[str]:
    """What each column of the file is read as."""
    read_as = {place: say(NAMES[column]) for column, place in suggested.reading.columns.items()}
    return [read_as.get(place, "") for place in range(suggested.width)]


@require_safe
def price_list_refused(request: HttpRequest, pk: int) -> HttpResponse:
    """The rows that were refused as a file of the kind that came in, with the reason beside each."""
    row = get_object_or_404(PriceList, pk=pk)
    reading = Reading.kept(row.reading)
    if not row.has_bytes or reading is None:
        return redirect("price-list", pk)
    try:
        content = row.content
        found = read_price_list(content, row.name, reading)
        heads = row.reading.get("heads", {})
        refused = (*found.rejected, *under_heads(sound_rows(found.rows)[1], heads))
        file = refused_file(content, row.name, reading, refused)
    except FileFault as fault:
        messages.error(request, str(fault))
        return redirect("price-list", pk)
    return file_answer(file.content, file.name, file.kind)


urlpatterns = [
    path("catalogue/price-lists/new/", price_list_new, name="price-list-new"),
    path("catalogue/price-lists/<int:pk>/columns/", price_list_columns, name="price-list-columns"),
    path("catalogue/price-lists/<int:pk>/refused/", price_list_refused, name="price-list-refused"),
]
