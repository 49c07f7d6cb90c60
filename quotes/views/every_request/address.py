"""Where a visitor comes from."""

from __future__ import annotations

from ipaddress import ip_address

from django.conf import settings
from django.http import HttpRequest


def client_address(request: HttpRequest) -> str | None:
    """The visitor's address; none where it is no address.

    X-Forwarded-For is believed only as far as our own proxies wrote it (PROXIES): a visitor may send one too.
    """
    said = str(request.META.get("REMOTE_ADDR", ""))
    if settings.PROXIES:
        chain = [part.strip() for part in request.headers.get("X-Forwarded-For", "").split(",")]
        said = chain[-settings.PROXIES] if len(chain) >= settings.PROXIES else said
    try:
        return str(ip_address(said))
    except ValueError:
        return None
