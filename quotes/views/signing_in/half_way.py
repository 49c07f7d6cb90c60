"""Between the password and the one-time code: nobody is signed in yet."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.contrib.auth import login
from django.contrib.auth.models import User
from django.http import HttpRequest
from django.utils import timezone
from django.utils.crypto import constant_time_compare

from quotes.views.every_request.signed_in import begin

HALF_WAY = "half_way"
AT_MOST = timedelta(minutes=10)
TRIES = 5


def wait_for_code(request: HttpRequest, user: User, then: str) -> None:
    """Remember whose password was right; that gives no right by itself."""
    request.session.flush()
    request.session.set_expiry(AT_MOST)
    request.session[HALF_WAY] = {
        "user": user.pk,
        "password": user.get_session_auth_hash(),
        "at": timezone.now().isoformat(),
        "then": then,
        "tries": 0,
    }


def person_half_way(request: HttpRequest) -> User | None:
    """Whose password was right not long ago, and is still the same."""
    kept = request.session.get(HALF_WAY)
    if not kept or timezone.now() - datetime.fromisoformat(kept["at"]) > AT_MOST:
        return None
    user = User.objects.filter(pk=kept["user"], is_active=True).first()
    if user is None or not constant_time_compare(kept["password"], user.get_session_auth_hash()):
        return None
    return user


def wrong_code(request: HttpRequest) -> bool:
    """Count a wrong code; whether the password has to be given again."""
    kept = request.session[HALF_WAY]
    kept["tries"] += 1
    request.session.modified = True
    if kept["tries"] < TRIES:
        return False
    request.session.flush()
    return True


def finish(request: HttpRequest, user: User) -> str:
    """Sign in for good; where the person was going."""
    then = str(request.session.pop(HALF_WAY)["then"])
    login(request, user, backend="django.contrib.auth.backends.ModelBackend")
    begin(request)
    return then
