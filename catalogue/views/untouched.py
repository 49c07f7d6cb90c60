"""A page that somebody else has changed meanwhile comes back with theirs wherever nothing was typed.

The page notes what it showed when it was opened (`seen.js`). What stands now is read from the page as it
would be opened now, so a form needs nothing of its own. Without a script it comes back as it was sent.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from copy import copy
from functools import wraps
from typing import Any

from django.http import HttpRequest, HttpResponse, QueryDict
from lxml import html  # type: ignore[import-untyped]

from catalogue.calc.untouched import SEEN, read_seen, with_theirs, write_seen

View = Callable[..., HttpResponse]
STALE = b'id="stale"'
"""On a page that says that somebody else has kept a change first."""


def keeps_theirs(view: View) -> View:
    @wraps(view)
    def shown(request: HttpRequest, *words: Any, **named: Any) -> HttpResponse:
        answer = view(request, *words, **named)
        seen = read_seen(request.POST.get(SEEN, "")) if request.method == "POST" else None
        if seen is None or STALE not in answer.content:
            return answer
        stands = fields_of(view(_opened(request), *words, **named).content)
        if not stands:
            return answer
        sent = {name: [str(value) for value in values] for name, values in request.POST.lists()}
        request.POST = _posted({**with_theirs(seen, sent, stands), SEEN: [write_seen(stands)]})  # type: ignore[assignment]
        return view(request, *words, **named)

    return shown


def _opened(request: HttpRequest) -> HttpRequest:
    """The same page, opened now."""
    again = copy(request)
    again.method, again.POST = "GET", QueryDict()
    return again


def fields_of(page: bytes) -> dict[str, list[str]]:
    """The fields of the form that the page keeps, as a browser would send them."""
    found: dict[str, list[str]] = defaultdict(list)
    form = next((one for one in html.fromstring(page).forms if "version" in one.fields), None)
    if form is None:
        return {}
    # A browser does not count the line end behind the tag, which is written there.
    texts = {one.get("name") for one in form.iter("textarea")}
    for name, value in form.form_values():
        found[name].append(value.removeprefix("\n") if name in texts else value)
    return dict(found)


def _posted(fields: dict[str, list[str]]) -> QueryDict:
    posted = QueryDict(mutable=True)
    for name, values in fields.items():
        posted.setlist(name, values)
    return posted
