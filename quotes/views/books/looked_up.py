"""A part looked up while extra work is written: found in what suppliers list, and filled into a line."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.http import HttpRequest
from django.utils import timezone

from catalogue.calc.said import say
from quotes.forms.books.extra_lines import Begun, begun
from quotes.queries.listed_line import listed_line
from quotes.views.part_search import found_listed


@dataclass(frozen=True, slots=True)
class LookedUp:
    """The form as it stands then, and what was found for it."""

    begun: Begun
    listed: dict[str, Any] | None = None


def looked_up(request: HttpRequest) -> LookedUp | None:
    """What a press to find a part or to fill one in leads to; None where neither was pressed."""
    posted = request.POST
    if "take-listed" in posted:
        told = listed_line(posted["take-listed"], timezone.localdate())
        if not told:
            messages.error(request, say("Nobody lists this part any more: look for it again."))
        return LookedUp(begun(posted, told))
    if posted.get("do") == "find-listed":
        return LookedUp(begun(posted), found_listed(posted.get("q", "")))
    return None
