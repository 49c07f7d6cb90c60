"""All addresses of the site: one list for each area, kept beside its views."""

from django.urls import URLPattern, URLResolver, include, path

from quotes.views import (
    background,
    booking,
    catalogue_book,
    changes,
    enquiry,
    find,
    help,
    keys,
    learning,
    part_search,
    quotes_list,
    replacement,
    sample,
    settings,
    slots,
    team,
    tune,
)
from quotes.views.bench import bench
from quotes.views.books import bookkeeping, money
from quotes.views.card import new_quote
from quotes.views.card import swaps as card_swaps
from quotes.views.customer import invoices as customer_invoices
from quotes.views.customer import page as customer
from quotes.views.every_request import language
from quotes.views.price_lists import reading as price_list_files
from quotes.views.price_lists import taking as price_lists
from quotes.views.records import customers as customer_pages
from quotes.views.records import engines as engine_pages
from quotes.views.records import erasing, imports
from quotes.views.records import lists as record_lists
from quotes.views.signing_in import codes, invited, own_sign_in, session, way_back
from quotes.views.today import first_steps
from quotes.views.today import page as home
from quotes.views.worksheet import issue, origins
from quotes.views.worksheet import page as worksheet

urlpatterns: list[URLPattern | URLResolver] = [
    path("", include(home)),
    path("", include(find)),
    path("", include(first_steps)),
    path("", include(sample)),
    path("", include(help)),
    path("", include(background)),
    path("", include(customer)),
    path("", include(customer_invoices)),
    path("", include(session)),
    path("", include(own_sign_in)),
    path("", include(keys)),
    path("", include(language)),
    path("", include(codes)),
    path("", include(way_back)),
    path("", include(invited)),
    path("", include(team)),
    path("", include(settings)),
    path("", include(quotes_list)),
    path("", include(new_quote)),
    path("", include(card_swaps)),
    path("", include(worksheet)),
    path("", include(origins)),
    path("", include(issue)),
    path("", include(record_lists)),
    path("", include(customer_pages)),
    path("", include(erasing)),
    path("", include(engine_pages)),
    path("", include(enquiry)),
    path("", include(booking)),
    path("", include(slots)),
    path("", include(imports)),
    path("", include(bench)),
    path("", include(bookkeeping)),
    path("", include(money)),
    path("", include(part_search)),
    path("", include(replacement)),
    path("", include(catalogue_book)),
    path("", include(price_list_files)),
    path("", include(price_lists)),
    path("", include(tune)),
    path("", include(learning)),
    path("", include(changes)),
    path("catalogue/", include("catalogue.urls")),
]

handler500 = "quotes.views.every_request.out_of_order.out_of_order"
