"""Suppliers' bills: the list, a new one, one of them, paying it, taking it back."""

from __future__ import annotations

from dataclasses import asdict
from datetime import date
from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.calc.said import say
from catalogue.calc.typed_figure import typed_number
from quotes.actions.books.bills import pay_bill, reverse_bill
from quotes.actions.books.entering_bills import enter_bill
from quotes.actions.books.keeping_bills import BillLineGiven
from quotes.actions.books.refused import BillEnteredAlready
from quotes.actions.books.refused_months import MonthClosed
from quotes.actions.refused import Refused
from quotes.filters.books.bills import BillFilter
from quotes.forms.books.bills import MORE, BillForm, LineTyped, PayBill, ReverseBill
from quotes.forms.books.refusing import refuse
from quotes.models import PurchaseOrder, SupplierBill
from quotes.queries.books.bills import WORDS, builds_offered, listed_bills, suppliers_known
from quotes.queries.books.order_bills import orders_of, to_bill
from quotes.tables.books.bills import BillTable
from quotes.views.books.listed import BooksList, currency_now, decimals_now, with_more_rows
from quotes.views.every_request.person import signed_in


class Bills(BooksList):
    """Every bill, the newest first."""

    title = _("Bills")
    one, many = _("bill"), _("bills")
    table_class = BillTable
    filterset_class = BillFilter
    template_name = "quotes/books/bills.html"

    def rows(self) -> QuerySet[Any]:
        return listed_bills(timezone.localdate())


def _form(request: HttpRequest) -> BillForm:
    unit, decimals = currency_now(), decimals_now()
    if request.method == "POST":
        return BillForm(with_more_rows(request.POST, ("line",), MORE), unit=unit, decimals=decimals)
    asked = typed_number(request.GET.get("order", ""))
    if asked is None:
        return BillForm(unit=unit, decimals=decimals)
    order = get_object_or_404(PurchaseOrder, pk=asked)
    lines = [asdict(line) for line in to_bill(order, unit)]
    return BillForm(unit=unit, decimals=decimals, supplier=order.supplier_name, first=lines)


@require_http_methods(["GET", "POST"])
def bill_new(request: HttpRequest) -> HttpResponse:
    """A bill is typed in from its paper; with `?order=` what was ordered stands in it to compare."""
    form = _form(request)
    if request.method != "POST" or "more" in request.POST or not form.is_valid():
        return _new_page(request, form)
    head = form.head.cleaned_data
    try:
        bill = enter_bill(
            supplier=head["supplier"],
            supplier_number=head["supplier_number"],
            on=head["on"],
            due_on=head["due_on"],
            lines=[given(line) for line in form.value()],
            tax=head["tax"],
            note=head["note"],
            by=signed_in(request),
            now=timezone.now(),
        )
    except (Refused, ValidationError) as wrong:
        refuse(form.head, wrong, place_of(wrong))
        return _new_page(request, form)
    messages.success(request, say("The bill is entered as {number}.", number=bill.number))
    return redirect("bill", bill.pk)


def given(line: LineTyped) -> BillLineGiven:
    """A line as the action takes it."""
    return BillLineGiven(kind=line.kind, description=line.description, net=line.net, build=line.build)


def place_of(refused: Exception) -> str | None:
    """The field of the bill's head that a refusal is about."""
    if isinstance(refused, MonthClosed):
        return "on"
    return "supplier_number" if isinstance(refused, BillEnteredAlready) else None


def _new_page(request: HttpRequest, form: BillForm) -> HttpResponse:
    context = {
        "form": form,
        "builds": builds_offered(),
        "suppliers": suppliers_known(),
    }
    return render(request, "quotes/books/bill_new.html", context)


@require_safe
def bill(request: HttpRequest, pk: int) -> HttpResponse:
    """One bill with what can still be done with it."""
    today = timezone.localdate()
    return _bill_page(request, pk, PayBill(initial={"on": today}), ReverseBill(initial={"on": today}))


def _bill_page(request: HttpRequest, pk: int, pay: PayBill, back: ReverseBill) -> HttpResponse:
    row: Any = get_object_or_404(listed_bills(timezone.localdate()).select_related("entered_by"), pk=pk)
    context = {
        "bill": row,
        "word": WORDS[row.place],
        "lines": row.lines.select_related("build__quote"),
        "entries": row.entries.order_by("pk"),
        "orders": orders_of(row),
        "pay": pay,
        "back": back,
    }
    return render(request, "quotes/books/bill.html", context)


@require_POST
def bill_pay(request: HttpRequest, pk: int) -> HttpResponse:
    """A bill was paid, in full."""
    row = get_object_or_404(SupplierBill, pk=pk)
    form = PayBill(request.POST)
    if form.is_valid():
        on: date = form.cleaned_data["on"]
        try:
            pay_bill(
                bill=row, on=on, method=form.cleaned_data["method"], by=signed_in(request), now=timezone.now()
            )
        except (Refused, ValidationError) as wrong:
            refuse(form, wrong, "on")
        else:
            messages.success(request, say("{number} is paid.", number=row.number))
            return redirect("bill", row.pk)
    return _bill_page(request, pk, form, ReverseBill(initial={"on": timezone.localdate()}))


@require_POST
def bill_reverse(request: HttpRequest, pk: int) -> HttpResponse:
    """A bill that was wrong is taken back by another."""
    row = get_object_or_404(SupplierBill, pk=pk)
    form = ReverseBill(request.POST)
    if form.is_valid():
        data = form.cleaned_data
        try:
            reverse_bill(
                bill=row, on=data["on"], note=data["note"], by=signed_in(request), now=timezone.now()
            )
        except (Refused, ValidationError) as wrong:
            refuse(form, wrong, "on")
        else:
            messages.success(request, say("{number} is taken back.", number=row.number))
            return redirect("bill", row.pk)
    return _bill_page(request, pk, PayBill(initial={"on": timezone.localdate()}), form)


urlpatterns = [
    path("books/bills/", Bills.as_view(), name="bill-list"),
    path("books/bills/new/", bill_new, name="bill-new"),
    path("books/bills/<int:pk>/", bill, name="bill"),
    path("books/bills/<int:pk>/pay/", bill_pay, name="bill-pay"),
    path("books/bills/<int:pk>/reverse/", bill_reverse, name="bill-reverse"),
]
