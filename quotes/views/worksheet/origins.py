"""Where a number of the worksheet comes from: one figure opened, or all of an option as a text to keep."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.template.defaultfilters import date as by_pattern
from django.urls import path, reverse

from catalogue.calc.said import say
from catalogue.views.file_answer import file_answer
from quotes.calc.ask.request import Request
from quotes.calc.origin.opened import every_figure, opened
from quotes.calc.origin.shown import issued_otherwise, moved
from quotes.calc.origin.values import Origin
from quotes.calc.origin.worked import Way
from quotes.calc.sheet.sentences import honesty
from quotes.documents.figures import LEAVE_IT, address_of, ways_of
from quotes.documents.figures import Way as Shown
from quotes.documents.origins import origins_text
from quotes.models import Quote
from quotes.queries.comparison import explained, explained_left
from quotes.queries.rights import may
from quotes.queries.sheets import request_of, sheet_of
from quotes.views.worksheet.page import OpenedQuote, open_sheet

PART = "origin"
"""The part of the worksheet that a figure opens into."""
SAYING_CHANCES = frozenset(
    {
        "chance",
        "wheel_lock",
        "good_for",
        "expected_loss",
        "component",
        "stops",
        "others",
        "reckoned",
    }
)
"""Kinds of figures that stand on hazards, and so on the five sentences."""


def origin(request: HttpRequest, pk: int) -> HttpResponse:
    """One figure and its parts: a part of the worksheet with a script, else a page of its own."""
    sheet = _sheet(request, pk)
    told = _explained(request, sheet)
    key = request.GET.get("of", "")
    figure = _figure(request, told, key).folded()
    issued = _issued(sheet, told.shown)
    given: dict[str, Any] = {
        "quote": sheet.quote,
        "tier": address_of(told.shown),
        "beside": _beside(request, sheet),
        "option": told.shown,
        "address": reverse("quote", args=[pk]),
        "origin": figure,
        "back": _back(request, told),
        "as_issued": issued_otherwise(key, issued, told.shown) if issued else "",
        "honesty": honesty(sheet.comparison) if sheet.comparison and _says_chance(key) else (),
    }
    part = request.headers.get("HX-Target") == PART
    return render(request, "quotes/origin/opened.html" if part else "quotes/origin/page.html", given)


def numbers(request: HttpRequest, pk: int) -> HttpResponse:
    """All figures of one option with their parts, as a text."""
    sheet = _sheet(request, pk)
    told = _explained(request, sheet)
    figures = [seen for figure in every_figure(told) if (seen := _seen_by(request, figure))]
    title = say(
        "Where the numbers come from: quote {quote}, {option}",
        quote=sheet.quote.title,
        option=told.shown.name,
    )
    text = origins_text(title, _said(sheet, told), figures)
    way = address_of(told.shown).replace("_", "-")
    name = f"{sheet.quote.number or f'draft-{pk}'}-{way}-numbers.md"
    return file_answer(text, name, "text/markdown; charset=utf-8")


WHOLE_SERVICE = 2
"""Words in the key of a service or a step as a whole."""


def _says_chance(key: str) -> bool:
    kinds = key.split(":")
    return not SAYING_CHANCES.isdisjoint(kinds) or (
        kinds[0] in {"service", "step"} and len(kinds) == WHOLE_SERVICE
    )


def _sheet(request: HttpRequest, pk: int) -> OpenedQuote:
    quote = get_object_or_404(Quote.objects.joined(), pk=pk)
    sheet = open_sheet(quote, "", _of_one(request_of(quote), request.GET.get("option", "")))
    if sheet.comparison is None:
        raise Http404("This quote can't be worked out as it stands, so its figures can't be opened.")
    return sheet


def _of_one(stored: Request, tier: str) -> Request:
    """The request for one option alone: the others need not be worked out."""
    return stored.model_copy(update={"tiers": (tier if tier in stored.tiers else stored.tiers[0],)})


def _explained(request: HttpRequest, sheet: OpenedQuote) -> Way:
    if sheet.comparison is None:
        raise Http404("There is nothing to open.")
    if request.GET.get("option") == LEAVE_IT:
        return explained_left(sheet.asked, sheet.comparison.leave_it)
    return explained(sheet.asked, sheet.comparison.option(sheet.tier))


def _figure(request: HttpRequest, told: Way, key: str) -> Origin:
    missing = Http404(f"This option has no figure {key!r}.")
    try:
        seen = _seen_by(request, opened(told, key))
    except (KeyError, ValueError):
        raise missing from None
    if seen is None:
        raise missing
    return seen


def _seen_by(request: HttpRequest, figure: Origin) -> Origin | None:
    """The figure as this person may see it: what the shop pays and adds is the owner's."""
    if may(request.user, "what a number costs us"):
        return figure
    return None if figure.private else figure.without_costs()


def _back(request: HttpRequest, told: Way) -> Origin | None:
    """The figure from which this one was opened."""
    via = request.GET.get("via", "")
    return _figure(request, told, via) if via else None


def _beside(request: HttpRequest, sheet: OpenedQuote) -> str:
    """The option on whose sheet this figure stood, where it is a figure of leaving it."""
    named = request.GET.get("beside", "")
    return named if named in request_of(sheet.quote).tiers else ""


def _issued(sheet: OpenedQuote, now: Shown) -> Shown | None:
    """The same option as the customer holds it, where it was issued."""
    latest = sheet.quote.latest
    ways = ways_of(sheet_of(latest).comparison) if latest else ()
    return next((way for way in ways if address_of(way) == address_of(now)), None)


def _said(sheet: OpenedQuote, told: Way) -> list[str]:
    """What stands over the figures: for what, as of when, and what the issued sheet says otherwise."""
    comparison = sheet.comparison
    if comparison is None:
        return []
    said = [
        say(
            "{engine}, {planned}. Worked out on {day} from the catalogue and the workshop's settings as they "
            "stood that day. Sums in {currency}.",
            engine=comparison.engine_type_name,
            planned=comparison.planned_in_words,
            day=by_pattern(comparison.on, say("d M Y")),
            currency=comparison.currency,
        )
    ]
    issued = _issued(sheet, told.shown)
    differs = list(moved(issued, told.shown)) if issued and sheet.quote.latest else []
    if differs and sheet.quote.latest:
        said.append(
            say(
                "Revision {number} was issued with other figures; what was issued holds. The parts below are "
                "those of the figures as worked out again.",
                number=sheet.quote.latest.index,
            )
        )
        said += [
            say("- {name}: issued {before}, now {after}", name=name, before=before, after=after)
            for name, before, after in differs
        ]
    return [*said, " ".join(honesty(comparison))]


urlpatterns = [
    path("quotes/<int:pk>/number/", origin, name="quote-origin"),
    path("quotes/<int:pk>/numbers.md", numbers, name="quote-numbers"),
]
