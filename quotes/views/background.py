"""Work in the background: what runs and what failed; and how far one is, for who waits for it."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from django.conf import settings
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import Resolver404, path, resolve
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.calc.said import say, say_figure
from quotes.actions.background import run_again
from quotes.filters.background import BackgroundFilter
from quotes.models import BackgroundWork
from quotes.queries.background import Progress, progress_of
from quotes.queries.rights import may_open
from quotes.tables.background import BackgroundTable
from quotes.views.table_page import TablePage

STANDS = timedelta(minutes=1)
"""What waits for so long may wait for a worker that nobody has started."""


class Background(TablePage):
    """Every work that was asked for, the latest first."""

    title = _("Long work")
    one, many = _("piece of work"), _("pieces of work")
    table_class = BackgroundTable
    filterset_class = BackgroundFilter
    template_name = "quotes/background.html"
    at = "#listed"

    def rows(self) -> QuerySet[Any]:
        return BackgroundWork.objects.select_related("asked_by")

    def get_context_data(self, **kwargs: Any) -> dict[str, Any]:
        failed = BackgroundWork.objects.failed()[:10]
        opened = [told(work) for work in BackgroundWork.objects.open()[:10]]
        return super().get_context_data(**kwargs) | {"failed": failed, "open": opened}


def told(work: BackgroundWork) -> dict[str, Any]:
    """What `quotes/background_piece.html` shows of a work: include it with `told=` this."""
    stands = work.state == "waiting" and timezone.now() - work.asked_at > STANDS
    progress = progress_of(work)
    return {
        "work": work,
        "progress": progress,
        "done": say_figure(progress.done, 0),
        "of": say_figure(progress.of, 0),
        "doing": _doing(work, progress),
        "no_worker": stands and settings.BACKGROUND == "worker",
    }


def _doing(work: BackgroundWork, progress: Progress) -> str:
    """What is being done and how far, in a sentence; empty where the work does not say."""
    if work.state == "waiting" or not progress.doing:
        return ""
    told = {"doing": progress.doing, "done": say_figure(progress.done, 0), "of": say_figure(progress.of, 0)}
    if progress.of:
        return say("{doing}, {done} of {of}.", **told)
    return say("{doing}, {done} so far.", **told) if progress.done else say("{doing}.", **told)


@require_safe
def state(request: HttpRequest, pk: int) -> HttpResponse:
    """The piece of a page that changes while it is done; the whole page is asked for again at its end."""
    work = get_object_or_404(BackgroundWork, pk=pk)
    if not (may_open(request.user, "background") or _may_open_its_page(request, work)):
        raise Http404(f"There is no work {pk}.")
    answer = render(request, "quotes/background_piece.html", {"told": told(work)})
    if not work.is_open:
        answer["HX-Refresh"] = "true"
    return answer


def _may_open_its_page(request: HttpRequest, work: BackgroundWork) -> bool:
    """Who may see the result may see how far it is."""
    try:
        return may_open(request.user, resolve(work.page).view_name)
    except Resolver404:
        return False


@require_POST
def again(request: HttpRequest, pk: int) -> HttpResponse:
    """Does once more what failed."""
    run_again(get_object_or_404(BackgroundWork, pk=pk))
    return redirect("background")


urlpatterns = [
    path("background/", Background.as_view(), name="background"),
    path("background/<int:pk>/", state, name="background-state"),
    path("background/<int:pk>/again/", again, name="background-again"),
]
