"""Today: what each person has to do."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path


def home(request: HttpRequest) -> HttpResponse:
    return render(request, "quotes/home.html")


urlpatterns = [path("", home, name="home")]
