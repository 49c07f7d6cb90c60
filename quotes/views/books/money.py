"""All addresses of making documents and taking money, for the desk, the books and the owner."""

from __future__ import annotations

from django.urls import URLPattern, URLResolver, include, path

from quotes.views.books import (
    build_money,
    build_work,
    call_off,
    credit,
    invoice_draft,
    invoices,
    payments,
    refund,
    take_payment,
)

urlpatterns: list[URLPattern | URLResolver] = [
    path("", include(invoices)),
    path("", include(invoice_draft)),
    path("", include(credit)),
    path("", include(build_money)),
    path("", include(build_work)),
    path("", include(call_off)),
    path("", include(payments)),
    path("", include(take_payment)),
    path("", include(refund)),
]
