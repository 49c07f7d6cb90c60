"""Links to pages that this person may open, and only words where he may not, as template tags.

Who may open what stands in `quotes.queries.rights`; nothing of it is said again here.
"""

from __future__ import annotations

from typing import Any

from django import template
from django.template.context import RequestContext
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from quotes.queries import rights
from quotes.queries.bench.job_lines import JobLine

register = template.Library()


@register.simple_tag(takes_context=True)
def may_open(context: RequestContext, page: str, *args: Any) -> bool:
    """Whether the person who reads may open a page: `{% may_open "engine" engine.pk as seen %}`."""
    return rights.may_open(context.request.user, page)


@register.simple_tag(takes_context=True)
def may(context: RequestContext, part: rights.Part) -> bool:
    """Whether the person who reads may see or do a part: `{% may "margin" as sees_margin %}`."""
    return rights.may(context.request.user, part)


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
