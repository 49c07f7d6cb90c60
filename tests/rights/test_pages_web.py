"""What the site says to every browser, and what it takes from none."""

from __future__ import annotations

import logging
import re
import runpy
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.test import Client

from quotes.queries.rights import ANYBODY, LINK, by_page
from quotes.views.every_request.masked_log import Masked
from tests.cast import owner
from tests.rights.walked import pages_left_out, patterns

ROOT = Path(settings.BASE_DIR)
INLINE = re.compile(
    r"<script(?![^>]*\bsrc=)|<style|\son[a-z]+=[\"']|\sstyle=[\"']|javascript:", re.IGNORECASE
)


@pytest.mark.django_db
def test_nothing_is_kept_from_a_form_without_its_token() -> None:
    """Customers' forms are the exception: their address is the authority, and no cookie gives any right."""
    client = Client(enforce_csrf_checks=True)
    client.force_login(owner())
    with pages_left_out():
        refused = {name: client.post(path).status_code for name, path in patterns().items()}

    exempt = {name for name, status in refused.items() if status != 403}
    assert exempt == {name for name in refused if by_page()[name].who == LINK}


def test_no_page_holds_a_script_a_style_or_a_handler_of_its_own() -> None:
    """Papers are drawn by us and never served as pages."""
    pages = [path for path in (ROOT / "templates").rglob("*.html") if "documents" not in path.parts]
    assert len(pages) > 100

    assert [str(path.relative_to(ROOT)) for path in pages if INLINE.search(path.read_text("utf-8"))] == []


def test_the_policy_lets_no_page_do_what_it_need_not() -> None:
    told: Any = settings.CONTENT_SECURITY_POLICY["DIRECTIVES"]

    assert told["default-src"] == told["base-uri"] == told["frame-ancestors"] == ["'none'"]
    for name in ("script-src", "style-src", "font-src", "connect-src", "form-action"):
        assert told[name] == ["'self'"], name
    assert told["img-src"] == ["'self'", "data:"]


@pytest.mark.django_db
def test_every_answer_says_what_it_is_and_stands_in_no_frame(client: Client) -> None:
    for address in ("/sign-in/", "/q/none/", "/nowhere/"):
        answer = client.get(address)
        assert answer["X-Content-Type-Options"] == "nosniff", address
    assert client.get("/sign-in/")["X-Frame-Options"] == "DENY"


@pytest.mark.django_db
def test_who_signs_out_leaves_no_page_behind_in_the_browser(client: Client) -> None:
    client.force_login(owner())

    assert client.post("/sign-out/")["Clear-Site-Data"] == '"cache"'


def under_https(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> dict[str, Any]:
    monkeypatch.setenv("HTTPS", "1")
    monkeypatch.setenv("DATA_DIR", str(tmp_path))
    return runpy.run_path(str(ROOT / "quotes" / "settings.py"))


def test_over_https_cookies_are_this_hosts_alone_and_plain_http_is_left(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    told = under_https(monkeypatch, tmp_path)

    for cookie in ("SESSION", "CSRF"):
        assert told[f"{cookie}_COOKIE_SECURE"]
        assert told[f"{cookie}_COOKIE_HTTPONLY"]
        assert told[f"{cookie}_COOKIE_SAMESITE"] == "Lax"
        assert told[f"{cookie}_COOKIE_NAME"].startswith("__Host-")
    assert told["SECURE_SSL_REDIRECT"]
    assert told["SECURE_HSTS_SECONDS"] >= 365 * 24 * 60 * 60
    assert told["REQUIRE_CODES"]


def test_a_file_made_for_the_secret_key_is_read_by_nobody_else(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.delenv("SECRET_KEY")
    under_https(monkeypatch, tmp_path)

    assert (tmp_path / "secret_key").stat().st_mode & 0o077 == 0


@pytest.mark.parametrize("address", ["/q/{}/yes/", "/invited/{}/", "/sign-in/new/MQ/{}/"])
def test_the_log_names_no_secret_of_an_address(address: str) -> None:
    path = address.format("6Lj27mf-wanQU77ieZBf0A")
    record = logging.LogRecord("django.request", logging.ERROR, "", 0, "Not Found: %s", (path,), None)

    said = Masked("{message}", style="{").format(record)

    assert said == f"Not Found: {address.format('...')}"


def test_only_the_pages_of_signing_in_and_customers_links_ask_for_no_sign_in() -> None:
    open_pages = {name for name, row in by_page().items() if row.who in (ANYBODY, LINK)}

    assert {name for name in open_pages if not name.startswith("customer-")} == {
        "code",
        "codes-set-up",
        "forgotten",
        "forgotten-sent",
        "invited",
        "language",
        "sign-in",
        "teardown-worker",
        "way-back",
    }
