"""What gunicorn asks of the site: a worker for the background in each of its processes, if it is to have one.

A process that is killed is started again by gunicorn, and its work is taken up.
"""

from __future__ import annotations

from typing import Any


def post_worker_init(worker: Any) -> None:
    """In the process that serves, after it has parted from the others."""
    from django.conf import settings

    from quotes.management.background import begin_in_site

    if settings.BACKGROUND == "site":
        begin_in_site()
