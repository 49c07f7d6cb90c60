"""Addresses of the catalogue pages."""

from django.urls import URLPattern

app_name = "catalogue"
urlpatterns: list[URLPattern] = []
