"""A PostgreSQL of one's own that keeps what it has promised, and may be killed."""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
import time
from pathlib import Path

import psycopg

from tests.faults.processes import children, free_port, kill, wait_gone

PROGRAMS = max(Path("/usr/lib/postgresql").glob("*/bin"), default=Path("/usr/bin"))
USER = "postgres"
PATIENCE = 60


class Cluster:
    """Its options are PostgreSQL's own: every commit is on the disk before anybody is told."""

    def __init__(self) -> None:
        self.port = free_port()
        self.folder = Path(tempfile.mkdtemp(prefix="faults-postgresql-"))
        if os.getuid() == 0:
            os.chown(self.folder, pwd.getpwnam(USER).pw_uid, -1)
        self._run("initdb", "-D", self.data, "-A", "trust", "-U", USER, "-E", "UTF8", "--locale=C.UTF-8")
        self.start()

    @property
    def data(self) -> str:
        return str(self.folder / "data")

    def url(self, name: str) -> str:
        return f"postgres://{USER}@127.0.0.1:{self.port}/{name}"

    def create(self, name: str) -> str:
        """An empty database; its address."""
        with psycopg.connect(self.url("postgres"), autocommit=True) as connection:
            connection.execute(f"CREATE DATABASE {name}".encode())
        return self.url(name)

    def start(self) -> None:
        """Also after a kill: what was promised is read from its log."""
        options = f"-p {self.port} -k {self.folder} -c listen_addresses=127.0.0.1 -c log_min_messages=fatal"
        until = time.monotonic() + PATIENCE
        while True:
            try:
                self._run(
                    "pg_ctl", "-D", self.data, "-w", "-s", "-l", f"{self.folder}/log", "-o", options, "start"
                )
            except subprocess.CalledProcessError:
                # Memory that the killed one shared may still be held for a moment.
                if time.monotonic() > until:
                    raise
                time.sleep(0.2)
            else:
                return

    def kill(self) -> None:
        """The server and all that it has started, at one moment."""
        server = int((Path(self.data) / "postmaster.pid").read_text().split()[0])
        all_of_it = [server, *children(server)]
        kill(*all_of_it)
        wait_gone(*all_of_it)

    def remove(self) -> None:
        self._run("pg_ctl", "-D", self.data, "-w", "-s", "-m", "immediate", "stop")
        shutil.rmtree(self.folder, ignore_errors=True)

    def _run(self, program: str, *words: str) -> None:
        # PostgreSQL will not run as root.
        apart = ["runuser", "-u", USER, "--"] if os.getuid() == 0 else []
        subprocess.run(
            [*apart, str(PROGRAMS / program), *words], check=True, cwd=self.folder, stdout=subprocess.DEVNULL
        )
