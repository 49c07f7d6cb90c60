"""The site as it is served, with its processes at hand to be killed."""

from __future__ import annotations

import os
import subprocess
import time
from pathlib import Path

from quotes.management.serving import ENVIRONMENT, gunicorn
from tests.faults.browser import Browser, Unanswered
from tests.faults.processes import children, free_port, kill, wait_gone

ROOT = Path(__file__).resolve().parent.parent.parent
PATIENCE = 120
LOG = "server.log"


class Server:
    """gunicorn with two workers, as `manage.py serve` starts it; it takes its place from the environment."""

    def __init__(self, site: str = "quotes.wsgi") -> None:
        self.port, self.site = free_port(), site
        self.address = f"http://127.0.0.1:{self.port}"
        self.start()

    def start(self) -> None:
        command = gunicorn(f"127.0.0.1:{self.port}", site=self.site, more=["--log-level", "critical"])
        with (Path(os.environ["DATA_DIR"]) / LOG).open("ab") as log:
            # Every page that finds no database says so in the log.
            self.process = subprocess.Popen(
                command,
                cwd=ROOT,
                env=ENVIRONMENT | os.environ,
                start_new_session=True,
                stdout=log,
                stderr=log,
            )
        try:
            self.wait_for_answer()
        except Unanswered:
            self.kill_all()
            raise

    def wait_for_answer(self) -> None:
        """Until it shows the page of the sign-in."""
        until = time.monotonic() + PATIENCE
        while True:
            try:
                Browser(self.address).page("/sign-in/")
            except Unanswered:
                if time.monotonic() > until:
                    raise
                time.sleep(0.1)
            else:
                return

    @property
    def workers(self) -> list[int]:
        return children(self.process.pid)

    def kill_all(self) -> None:
        """Master and workers at one moment."""
        workers = self.workers
        kill(self.process.pid, *workers)
        self.process.wait()
        wait_gone(*workers)

    def kill_master(self) -> None:
        """The workers find themselves alone and leave."""
        workers = self.workers
        kill(self.process.pid)
        self.process.wait()
        wait_gone(*workers)
