"""A bare Django view for a page of ours: the same queries, their answers fetched, the same cells in a table.

Where the page is a list, a view as the libraries of lists make it stands there instead.

It goes through what a new Django project puts before a view (sessions, sign-in, forged forms, messages), and
through nothing of ours: no filters, no tables, no forms, no head of a page.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from django.db import connection
from django.http import HttpRequest, HttpResponse
from django.template import engines
from django.test import Client, override_settings
from django.urls import include, path
from lxml import html  # type: ignore[import-untyped]

Asked = tuple[str, Any]
BEFORE_A_VIEW = ("django_session", '"auth_user"."password"', "quotes_signin")
"""What is asked before a view is reached: by Django's own, for the bare view as well, and by ours."""
TABLE = """<!doctype html><html lang="en"><head><title>{{ title }}</title></head><body><table>
{% for row in rows %}<tr>{% for cell in row %}<td>{{ cell }}</td>{% endfor %}</tr>
{% endfor %}</table></body></html>"""
PLAIN = {
    "MIDDLEWARE": [
        f"{__name__}.own_addresses",
        "django.middleware.security.SecurityMiddleware",
        "django.contrib.sessions.middleware.SessionMiddleware",
        "django.middleware.common.CommonMiddleware",
        "django.middleware.csrf.CsrfViewMiddleware",
        "django.contrib.auth.middleware.AuthenticationMiddleware",
        "django.contrib.messages.middleware.MessageMiddleware",
        "django.middleware.clickjacking.XFrameOptionsMiddleware",
    ],
}
ADDRESS = "/bare/"


@dataclass(slots=True)
class PageWork:
    """A page of ours, what it asks the database, and what stands in its tables."""

    address: str
    client: Client
    asked: list[Asked] = field(default_factory=list)
    cells: list[list[str]] = field(default_factory=list)
    besides: Callable[[], object] = lambda: None
    """What else the page has worked out, done by the bare library."""
    template: Any = None
    view: Callable[[HttpRequest], HttpResponse] | None = None
    """Another bare view than the one that repeats the queries."""


_now: list[PageWork] = []


def page_work(address: str, user: str) -> PageWork:
    """The page opened twice: once to warm up, once to see what it asks."""
    from django.contrib.auth.models import User

    client = Client(HTTP_HOST="127.0.0.1")
    client.force_login(User.objects.get(username=user))
    work = PageWork(address, client)
    opened(work)
    with connection.execute_wrapper(_noting(work.asked)):
        body = opened(work).content
    work.cells = [
        [" ".join(cell.text_content().split()) for cell in row.xpath("./td|./th")]
        for row in html.fromstring(body).xpath("//table//tr")
    ]
    work.template = engines["django"].from_string(TABLE)
    return work


def opened(work: PageWork) -> HttpResponse:
    response: HttpResponse = work.client.get(work.address)  # type: ignore[assignment]
    assert response.status_code == 200, (work.address, response.status_code, response.headers.get("Location"))
    return response


def _noting(asked: list[Asked]) -> Callable[..., Any]:
    def note(execute: Any, sql: str, params: Any, many: bool, context: Any) -> Any:
        if sql.lstrip().upper().startswith("SELECT") and not any(mark in sql for mark in BEFORE_A_VIEW):
            asked.append((sql, params))
        return execute(sql, params, many, context)

    return note


def bare_page(work: PageWork) -> None:
    """The bare view asked for through Django's own middleware."""
    bare = _bare_client()
    bare.cookies = work.client.cookies
    _now[:] = [work]
    assert bare.get(ADDRESS).status_code == 200


@cache
def _bare_client() -> Client:
    """Its middleware is loaded once, as that of a site that runs."""
    bare = Client(HTTP_HOST="127.0.0.1")
    with override_settings(**PLAIN):
        bare.handler.load_middleware()
    return bare


def own_addresses(
    get_response: Callable[[HttpRequest], HttpResponse],
) -> Callable[[HttpRequest], HttpResponse]:
    """Leads to the view below. As a setting it would empty what is kept of all addresses, of ours as well."""

    def lead(request: HttpRequest) -> HttpResponse:
        request.urlconf = __name__
        return get_response(request)

    return lead


def view(request: HttpRequest) -> HttpResponse:
    (work,) = _now
    if work.view is not None:
        return work.view(request)
    assert request.user.is_authenticated
    with connection.cursor() as cursor:
        for sql, params in work.asked:
            cursor.execute(sql, params)
            cursor.fetchall()
    work.besides()
    return HttpResponse(work.template.render({"title": work.address, "rows": work.cells}))


# Ours stand beside it, for the links in a table.
urlpatterns = [path(ADDRESS.strip("/") + "/", view), path("", include("quotes.urls"))]
