"""Links to pages that this person may open, and only words where he may not, as template tags.

Who may open a page stands at its view (`role_required`); nothing of it is said again here.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from django import template
from django.template.context import RequestContext
from django.urls import resolve, reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from quotes.queries.bench.job_lines import JobLine
from quotes.queries.people import roles_of

register = template.Library()


@lru_cache(maxsize=512)
def _allowed(url: str) -> frozenset[str] | None:
    """The roles of a page's address; None where it is open to everybody."""
    return getattr(resolve(url).func, "allowed", None)


@register.simple_tag(takes_context=True)
def may_open(context: RequestContext, page: str, *args: Any) -> bool:
    """Whether the person who reads may open a page: `{% may_open "engine" engine.pk as seen %}`."""
    allowed = _allowed(reverse(page, args=args))
    return allowed is None or bool(roles_of(context.request.user) & allowed)


@register.simple_tag(takes_context=True)
def linked(context: RequestContext, words: object, page: str, *args: Any) -> SafeString:
    """The words as a link to a page, or alone: `{% linked engine.number "engine" engine.pk %}`."""
    if not may_open(context, page, *args):
        return format_html("{}", words)
    return format_html('<a href="{}">{}</a>', reverse(page, args=args), words)


@register.simple_tag(takes_context=True)
def linked_line(context: RequestContext, line: JobLine) -> SafeString:
    """The title of a line of the job's page, as a link to where it leads."""
    return linked(context, line.title, line.url_name, *line.args)
