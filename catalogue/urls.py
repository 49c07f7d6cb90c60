"""Addresses of the catalogue pages."""

from __future__ import annotations

from django.urls import URLPattern, path, register_converter

from catalogue.views.changing import change, new
from catalogue.views.entries import entry
from catalogue.views.home import home
from catalogue.views.lists import EntryList
from catalogue.views.sheets import SHEETS
from catalogue.views.untouched import keeps_theirs


class KindConverter:
    """The kind of entry as it stands in an address: machine-work for machine_work."""

    regex = "[a-z-]+"

    def to_python(self, value: str) -> str:
        kind = value.replace("-", "_")
        if kind not in SHEETS:
            raise ValueError(value)
        return kind

    def to_url(self, value: str) -> str:
        return value.replace("_", "-")


register_converter(KindConverter, "kind")

app_name = "catalogue"
urlpatterns: list[URLPattern] = [
    path("", home, name="home"),
    path("<kind:kind>/", EntryList.as_view(), name="list"),
    path("<kind:kind>/new/", new, name="new"),
    path("<kind:kind>/<str:code>/", entry, name="entry"),
    path("<kind:kind>/<str:code>/change/", keeps_theirs(change), name="change"),
]
