"""All addresses of the site: one list for each area, kept beside its views."""

from django.urls import URLPattern, URLResolver, include, path

from quotes.views import (
    card_swaps,
    customer_pages,
    engine_pages,
    home,
    issue,
    new_quote,
    session,
    settings,
    worksheet,
)

urlpatterns: list[URLPattern | URLResolver] = [
    path("", include(home)),
    path("", include(session)),
    path("", include(settings)),
    path("", include(new_quote)),
    path("", include(card_swaps)),
    path("", include(worksheet)),
    path("", include(issue)),
    path("", include(customer_pages)),
    path("", include(engine_pages)),
    path("catalogue/", include("catalogue.urls")),
]
