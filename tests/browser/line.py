"""A line between browser and site that can be cut: a browser's own "offline" stops its pages only.

Requests of a service worker go on through it; a line that is cut is cut for all.
"""

from __future__ import annotations

import contextlib
import socket
import threading
from typing import Literal
from urllib.parse import urlsplit

State = Literal["whole", "cut", "answers lost"]
CHUNK = 65536


class Line:
    """Passes bytes to the site and back. With `answers lost`, what is asked arrives and no answer does."""

    def __init__(self, site: str) -> None:
        parts = urlsplit(site)
        self._site = (parts.hostname or "", parts.port or 80)
        self._state: State = "whole"
        self._ends: set[socket.socket] = set()
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.address = f"http://localhost:{self._listener.getsockname()[1]}"
        self.posts = 0
        threading.Thread(target=self._accept, daemon=True).start()

    def set(self, state: State) -> None:
        """From now on; what is under way when it is cut breaks off."""
        self._state = state
        for end in list(self._ends) if state != "whole" else []:
            self._close(end)

    def close(self) -> None:
        """Take it down."""
        self.set("cut")
        self._listener.close()

    def _accept(self) -> None:
        with contextlib.suppress(OSError):
            while True:
                near, _ = self._listener.accept()
                threading.Thread(target=self._join, args=(near,), daemon=True).start()

    def _join(self, near: socket.socket) -> None:
        if self._state == "cut":
            near.close()
            return
        far = socket.create_connection(self._site)
        self._ends |= {near, far}
        threading.Thread(target=self._pass, args=(far, near, True), daemon=True).start()
        self._pass(near, far, False)

    def _pass(self, start: socket.socket, end: socket.socket, answers: bool) -> None:
        with contextlib.suppress(OSError):
            while data := start.recv(CHUNK):
                if answers and self._state == "answers lost":
                    break
                self.posts += not answers and data.startswith(b"POST ")
                end.sendall(data)
        self._close(start)
        self._close(end)

    def _close(self, end: socket.socket) -> None:
        self._ends.discard(end)
        with contextlib.suppress(OSError):
            end.shutdown(socket.SHUT_RDWR)
        end.close()
