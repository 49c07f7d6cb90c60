"""All addresses of the site."""

from django.urls import URLPattern, URLResolver, include, path

urlpatterns: list[URLPattern | URLResolver] = [
    path("catalogue/", include("catalogue.urls")),
]
