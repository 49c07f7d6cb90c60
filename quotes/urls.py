"""All addresses of the site: one list for each area, kept beside its views."""

from django.urls import URLPattern, URLResolver, include, path

from quotes.views import home, session

urlpatterns: list[URLPattern | URLResolver] = [
    path("", include(home)),
    path("", include(session)),
    path("catalogue/", include("catalogue.urls")),
]
