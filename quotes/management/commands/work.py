"""Does the work in the background: the worker of a site on PostgreSQL."""

from __future__ import annotations

import signal
from types import FrameType
from typing import Any

from django.core.management.base import BaseCommand

from quotes.management.background import Looking


class Command(BaseCommand):
    help = (
        "Does the work in the background, until it is told to stop. Start as many as you like, on as many"
        " machines: no work is done twice. On SQLite the site does it, and nothing has to be started."
    )

    def handle(self, *args: Any, **options: Any) -> None:
        looking = Looking()

        def stop(number: int, frame: FrameType | None) -> None:
            if looking.over.is_set():
                raise SystemExit(1)
            self.stderr.write("The work in hand is finished first; once more ends it at once.")
            looking.over.set()

        signal.signal(signal.SIGTERM, stop)
        signal.signal(signal.SIGINT, stop)
        self.stdout.write("The worker looks for work.")
        self.stdout.flush()
        looking.run()
