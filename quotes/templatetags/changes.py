"""The way from a record to its history, for who may read it; it stands at the foot of every page."""

from __future__ import annotations

from django import template
from django.template.context import RequestContext
from django.urls import reverse
from django.utils.html import format_html_join
from django.utils.safestring import SafeString

from catalogue.calc.said import say
from catalogue.queries.shapes import SHAPES
from quotes.queries import rights

register = template.Library()
RECORDS = {
    "customer": "quotes.customer",
    "engine": "quotes.engine",
    "quote": "quotes.quote",
    "quote-card": "quotes.quote",
    "enquiry": "quotes.enquiry",
    "job": "quotes.job",
    "build-money": "quotes.acceptance",
    "invoice": "quotes.invoice",
    "price-list": "catalogue.pricelist",
}
"""The record that a page is about, by the page's name; its key is the `pk` of the address."""


@register.simple_tag(takes_context=True)
def history_links(context: RequestContext) -> SafeString | str:
    """History of what the page is about, and the whole record of changes."""
    match = context.request.resolver_match
    if match is None or not rights.may_open(context.request.user, "record-changes"):
        return ""
    links = [(reverse("changes"), say("Record of changes"))]
    if record := _record(match.view_name, match.kwargs):
        links.insert(0, (reverse("record-changes", args=record), say("History of this")))
    return format_html_join("", '<a href="{}">{}</a> ', links)


def _record(page: str, given: dict[str, object]) -> tuple[str, str] | None:
    if page in RECORDS:
        return RECORDS[page], str(given["pk"])
    if page == "settings":
        return "quotes.workshop", "1"
    if page == "catalogue:entry":
        return SHAPES[str(given["kind"])].model._meta.label_lower, str(given["code"])
    return None
