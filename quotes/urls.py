"""All addresses of the site: one list for each area, kept beside its views."""

from django.urls import URLPattern, URLResolver, include, path

from quotes.views import (
    booking,
    card_swaps,
    codes,
    customer,
    customer_invoices,
    customer_pages,
    engine_pages,
    enquiry,
    find,
    home,
    imports,
    issue,
    learning,
    new_quote,
    origins,
    own_sign_in,
    quotes_list,
    record_lists,
    replacement,
    session,
    settings,
    slots,
    tune,
    way_back,
    worksheet,
)
from quotes.views.bench import bench
from quotes.views.books import bookkeeping, money

urlpatterns: list[URLPattern | URLResolver] = [
    path("", include(home)),
    path("", include(find)),
    path("", include(customer)),
    path("", include(customer_invoices)),
    path("", include(session)),
    path("", include(own_sign_in)),
    path("", include(codes)),
    path("", include(way_back)),
    path("", include(settings)),
    path("", include(quotes_list)),
    path("", include(new_quote)),
    path("", include(card_swaps)),
    path("", include(worksheet)),
    path("", include(origins)),
    path("", include(issue)),
    path("", include(record_lists)),
    path("", include(customer_pages)),
    path("", include(engine_pages)),
    path("", include(enquiry)),
    path("", include(booking)),
    path("", include(slots)),
    path("", include(imports)),
    path("", include(bench)),
    path("", include(bookkeeping)),
    path("", include(money)),
    path("", include(replacement)),
    path("", include(tune)),
    path("", include(learning)),
    path("catalogue/", include("catalogue.urls")),
]

handler500 = "quotes.views.out_of_order.out_of_order"
