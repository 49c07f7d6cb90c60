"""The worker: does what is queued, and takes up what others have left."""

from __future__ import annotations

import logging
from threading import Event, Thread

from django.db import close_old_connections, connection
from django.utils import timezone
from django.utils.crypto import get_random_string
from django_tasks import DEFAULT_TASK_BACKEND_ALIAS, DEFAULT_TASK_QUEUE_NAME
from django_tasks_db.management.commands.db_worker import Worker
from django_tasks_db.models import DBTaskResult

from quotes.actions.background_lost import take_up_lost

LOOK_SECONDS = 1.0
LOST_EVERY = 10
"""So many looks at the queue for one at what was left."""
AFTER_A_FAULT_SECONDS = 5.0
log = logging.getLogger(__name__)


class Looking:
    """Looks at the queue until it is told to stop; a work that it has begun it finishes."""

    def __init__(self) -> None:
        self.over = Event()

    def run(self) -> None:
        """A look that finds nothing only reads, so an idle worker is in nobody's way."""
        looks = 0
        while not self.over.is_set():
            try:
                if looks % LOST_EVERY == 0:
                    take_up_lost(now=timezone.now())
                if DBTaskResult.objects.ready().exists():
                    _worker().run()
                    looks = 0
                pause = LOOK_SECONDS
            except Exception:
                log.exception("The worker could not look at the queue and will look again")
                pause = AFTER_A_FAULT_SECONDS
            looks += 1
            close_old_connections()
            self.over.wait(pause)
        connection.close()


def _worker() -> Worker:
    """The library's own, for one work: then it is time to look at what was left."""
    return Worker(
        queue_names=[DEFAULT_TASK_QUEUE_NAME],
        excluded_queue_names=[],
        backend_name=DEFAULT_TASK_BACKEND_ALIAS,
        interval=LOOK_SECONDS,
        batch=True,
        max_tasks=1,
        startup_delay=False,
        worker_id=get_random_string(32),
    )


def begin_in_site() -> None:
    """Beside the pages, in a thread: so that nobody must start a worker besides."""
    Thread(target=Looking().run, name="background", daemon=True).start()
