"""Serves the site on this machine."""

from __future__ import annotations

import os
import socket
import sys
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from quotes.management.demo import sign_ins_in_words
from quotes.management.serving import ENVIRONMENT, gunicorn


class Command(BaseCommand):
    help = "Serves the site with gunicorn on 127.0.0.1; HOST and PORT name another address."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--host", default=os.environ.get("HOST", "127.0.0.1"))
        parser.add_argument("--port", type=int, default=int(os.environ.get("PORT", "8000")))

    def handle(self, *args: Any, host: str, port: int, **options: Any) -> None:
        _refuse_if_taken(host, port)
        self.stdout.write(f"\nThe site is at http://{host}:{port}/ until you press Ctrl-C.\n")
        self.stdout.write(sign_ins_in_words())
        self.stdout.flush()
        os.environ.update(ENVIRONMENT | os.environ)
        os.execv(sys.executable, gunicorn(f"{host}:{port}"))  # Our own command. # noqa: S606


def _refuse_if_taken(host: str, port: int) -> None:
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, port))
        except OSError as error:
            raise CommandError(
                f"{host}:{port} can't be used ({error.strerror}). Name another port: PORT=8001 make serve"
            ) from error
