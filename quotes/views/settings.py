"""The owner's page of settings."""

from __future__ import annotations

from collections.abc import Sequence

from django.contrib import messages
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from catalogue.calc.said import say
from catalogue.views.untouched import keeps_theirs
from quotes.actions.refused import StaleDraft
from quotes.actions.settings import save_settings
from quotes.calc.sheet.issued_values import RevisionChange
from quotes.forms.settings import SettingsPage
from quotes.models import Workshop
from quotes.queries.set_up import set_up_gaps
from quotes.queries.settings import settings_now
from quotes.views.every_request.form_marks import version_of


@require_http_methods(["GET", "POST"])
def settings(request: HttpRequest) -> HttpResponse:
    """Shows the settings, or keeps what was typed."""
    workshop = Workshop.objects.get_or_default()
    if request.method != "POST":
        return _page(request, SettingsPage(settings_now(workshop), timezone.localdate()), workshop.version)
    page = SettingsPage(settings_now(workshop), timezone.localdate(), request.POST)
    version = version_of(request, unread=-1)
    if not page.is_valid():
        return _page(request, page, version)
    assert isinstance(request.user, User)
    try:
        save_settings(settings=page.value(), expected_version=version, by=request.user, now=timezone.now())
    except StaleDraft as stale:
        return _page(request, page, stale.version, stale=stale)
    except ValidationError as wrong:
        return _page(request, page, version, faults=wrong.messages)
    messages.success(request, say("The settings are kept."))
    return redirect("settings")


def _page(
    request: HttpRequest,
    page: SettingsPage,
    version: int,
    *,
    stale: StaleDraft | None = None,
    faults: Sequence[str] = (),
) -> HttpResponse:
    changes: Sequence[RevisionChange] = stale.changes if stale else ()
    context = {
        "page": page,
        "version": version,
        "stale": stale,
        "changes": changes,
        "faults": faults,
        "gaps": [gap for gap in set_up_gaps() if gap.url_name == "settings"],
    }
    return render(request, "quotes/settings.html", context)


urlpatterns = [path("settings/", keeps_theirs(settings), name="settings")]
