"""System checks: what the workshop's set-up still lacks, and pages that nobody was given a right to.

Those of the set-up read the database, so they are tagged `database`: plain `manage.py check` leaves them out
and stays clean on an empty site; `manage.py check --database default` and `manage.py migrate` show them as
warnings with id and hint, and the owner sees the same list on the page Today. Only issuing a quote insists on
those that block it.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import Any

from django.apps.config import AppConfig
from django.conf import settings
from django.core.checks import CheckMessage, Error, Tags, Warning, register
from django.db import DatabaseError, connection, transaction
from django.urls import URLPattern, URLResolver, get_resolver

from catalogue.models.file_store import StoreSilent, file_store
from quotes.models import StoredFile, Telephone
from quotes.models.sealed import MARK
from quotes.queries.rights import by_page
from quotes.queries.set_up import set_up_gaps


@register(Tags.database)
def set_up_is_complete(
    *, app_configs: Sequence[AppConfig] | None = None, databases: Sequence[str] | None = None, **options: Any
) -> list[CheckMessage]:
    """One warning for each gap; none before the tables are there."""
    if not databases or "default" not in databases:
        return []
    try:
        with transaction.atomic():
            return [Warning(gap.sentence, hint=gap.hint, id=gap.id) for gap in set_up_gaps()]
    except DatabaseError:
        return []


@register
def several_machines_share_all(
    *, app_configs: Sequence[AppConfig] | None = None, **options: Any
) -> list[CheckMessage]:
    """An error for each thing that several machines (MACHINES) would each have for themselves."""
    if settings.MACHINES < 2:
        return []
    apart = (
        (
            connection.vendor == "sqlite",
            "The embedded database serves one machine only.",
            "Move to PostgreSQL (manage.py move_to_postgres) and name it in DATABASE_URL.",
            "quotes.E003",
        ),
        (
            not os.environ.get("SECRET_KEY"),
            "Each machine would sign with a key of its own, and take no other's sign-ins.",
            "Give all of them the same SECRET_KEY: the text of secret_key in the data folder of the first.",
            "quotes.E004",
        ),
        (
            not os.environ.get("FILES_BUCKET") and not os.environ.get("FILES_FOLDER"),
            "Photos and papers would lie on the machine that took them in, and be missing on the others.",
            "Name a bucket in FILES_BUCKET, or in FILES_FOLDER a folder that all of them mount.",
            "quotes.E005",
        ),
        (
            not settings.EMAIL_HOST,
            "Mails would become files on whichever machine wrote them.",
            "Name a mail server in MAIL_HOST.",
            "quotes.E006",
        ),
    )
    return [Error(words, hint=hint, id=id) for wrong, words, hint, id in apart if wrong]


@register(Tags.database)
def the_newest_file_is_there(
    *, app_configs: Sequence[AppConfig] | None = None, databases: Sequence[str] | None = None, **options: Any
) -> list[CheckMessage]:
    """A warning where the file that was kept last is not found: others use another folder."""
    if not databases or "default" not in databases:
        return []
    try:
        with transaction.atomic():
            newest = (
                StoredFile.objects.exclude(place="").order_by("-pk").values_list("place", flat=True).first()
            )
    except DatabaseError:
        return []
    try:
        if newest is None or file_store().exists(newest):
            return []
    except StoreSilent as trouble:
        hint = "See FILES_BUCKET and FILES_ENDPOINT, and whether this machine reaches them."
        return [Warning(f"The place of files gives no answer: {trouble}", hint=hint, id="quotes.W021")]
    hint = (
        "See FILES_FOLDER and FILES_BUCKET; manage.py move_files --from FOLDER fetches what lies elsewhere."
    )
    return [Warning(f"The file that was kept last is missing: {newest}", hint=hint, id="quotes.W020")]


@register(Tags.database)
def codes_can_be_read(
    *, app_configs: Sequence[AppConfig] | None = None, databases: Sequence[str] | None = None, **options: Any
) -> list[CheckMessage]:
    """A warning where secrets of one-time codes were sealed under another key, as after a restore."""
    if not databases or "default" not in databases:
        return []
    try:
        with transaction.atomic():
            # What no migration has sealed yet is about to be.
            shut = sum(not row.can_be_opened for row in Telephone.objects.filter(key__startswith=MARK))
    except DatabaseError:
        return []
    if not shut:
        return []
    hint = (
        "Put back the SECRET_KEY of before (the file secret_key in the data folder, which no backup holds),"
        " or give it in SECRET_KEY_FALLBACKS and run manage.py seal_codes; else manage.py drop_codes NAME."
    )
    words = f"The one-time codes of {shut} can't be read: they were sealed under another SECRET_KEY."
    return [Warning(words, hint=hint, id="quotes.W022")]


@register(Tags.security)
def every_page_has_its_right(
    *, app_configs: Sequence[AppConfig] | None = None, **options: Any
) -> list[CheckMessage]:
    """An error for each page that nobody has been given a right to, and each right without a page."""
    there, given = pages_of_the_site(), set(by_page())
    hint = "Put the name of its address into a row of quotes/queries/rights.py."
    untold = [
        Error(f"Nobody has a right to the page “{page}”.", hint=hint, id="quotes.E001")
        for page in sorted(there - given)
    ]
    gone = [
        Error(
            f"There is no page “{page}” to have a right to.",
            hint="Take it out of quotes/queries/rights.py.",
            id="quotes.E002",
        )
        for page in sorted(given - there)
    ]
    return [*untold, *gone]


def pages_of_the_site() -> set[str]:
    """The names of all addresses, as the rights know them."""
    found: set[str] = set()

    def walk(patterns: Sequence[URLPattern | URLResolver], within: str) -> None:
        for one in patterns:
            if isinstance(one, URLResolver):
                walk(one.url_patterns, f"{within}{one.namespace}:" if one.namespace else within)
            else:
                found.add(f"{within}{one.name}")

    walk(get_resolver().url_patterns, "")
    return found
