"""A work in hand: its lease, its signs of life, how far it has come, and its end.

Whoever has it gives a sign of life every few seconds. Where none comes for a while the work is another's, and
the first, should it still live, can end nothing any more: the end asks for its own name in the row.
"""

from __future__ import annotations

import logging
import os
import secrets
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from threading import Event, Thread

from django.conf import settings
from django.db import DatabaseError, connection, transaction
from django.db.models import F
from django.utils import timezone

from quotes.models import BackgroundWork
from quotes.models.background_work import WorkState
from quotes.queries.background import Progress, forget_shown, show

EVERY_SECONDS = 1.0
"""From one sign of life to the next."""
HELD_UP_MS = 500
"""On SQLite a sign does not wait longer for whoever writes: that may be the work itself."""
log = logging.getLogger(__name__)


class Lost(Exception):
    """The work is in another's hand: this one was silent for too long."""


class Hand:
    """What a work is given. By itself it belongs to no row: work that is done here and now."""

    progress = Progress()

    def at(self, done: int, of: int | None = None, doing: str | None = None) -> None:
        """How far it has come; costs nothing, so say it as often as you like."""
        now = self.progress
        self.progress = Progress(done, now.of if of is None else of, now.doing if doing is None else doing)

    @contextmanager
    def keep(self) -> Iterator[None]:
        """One transaction for all that the work keeps: it and the word that it is done, or neither."""
        with transaction.atomic():
            yield


@dataclass
class WorkInHand(Hand):
    """A work in hand, with the name under which it is held."""

    work: BackgroundWork
    holder: str
    ended: bool = False
    lost: bool = False
    progress: Progress = field(default_factory=Progress)

    def at(self, done: int, of: int | None = None, doing: str | None = None) -> None:
        if self.lost:
            raise Lost(self.work.key)
        super().at(done, of, doing)

    @contextmanager
    def keep(self) -> Iterator[None]:
        with transaction.atomic():
            yield
            self.end()

    def end(self) -> None:
        """It is done. Lost where it is no longer this one's to end."""
        if self.ended:
            return
        whole = max(self.progress.of, self.progress.done)
        self._end(WorkState.DONE, done=whole, of=whole)

    def fail(self, because: str) -> None:
        """It came to nothing, and why."""
        self.ended = False
        try:
            self._end(WorkState.FAILED, failed_because=because, done=self.progress.done, of=self.progress.of)
        except Lost:
            log.warning("%s went to another hand before it failed here: %s", self.work.key, because)

    def let_go(self) -> None:
        """It stays to be done, by whoever comes next."""
        BackgroundWork.objects.held_by(self.holder).update(seen_at=self.work.asked_at)

    def _end(self, state: WorkState, **told: object) -> None:
        mine = BackgroundWork.objects.filter(pk=self.work.pk).held_by(self.holder)
        if not mine.update(state=state, holder="", doing="", ended_at=timezone.now(), **told):
            raise Lost(self.work.key)
        self.ended = True

    @contextmanager
    def showing(self) -> Iterator[None]:
        """Signs of life beside the work, with how far it has come; none where somebody waits for it."""
        if settings.BACKGROUND == "at once":
            yield
            return
        over = Event()
        beside = Thread(target=self._show, args=(over,), name=f"background-{self.work.pk}", daemon=True)
        beside.start()
        try:
            yield
        finally:
            over.set()
            beside.join()
            forget_shown(self.work.pk)

    def _show(self, over: Event) -> None:
        """Its own thread has its own connection, so it is seen what a transaction still holds back."""
        try:
            if connection.vendor == "sqlite":
                with connection.cursor() as cursor:
                    cursor.execute(f"PRAGMA busy_timeout = {HELD_UP_MS}")
            while not over.wait(EVERY_SECONDS):
                self._sign()
        finally:
            connection.close()

    def _sign(self) -> None:
        now = self.progress
        try:
            show(self.work.pk, now)
            mine = BackgroundWork.objects.filter(pk=self.work.pk).held_by(self.holder)
            seen = mine.update(seen_at=timezone.now(), done=now.done, of=now.of, doing=now.doing[:200])
        except (DatabaseError, OSError):
            return  # The next sign may come through; silent for too long, it is another's.
        self.lost = not seen and not self.ended


def take_in_hand(work_id: int) -> WorkInHand | None:
    """The work, if it waits: of two that ask at once, one gets it."""
    holder = f"{socket.gethostname()[:50]} {os.getpid()} {secrets.token_hex(8)}"
    now = timezone.now()
    took = BackgroundWork.objects.filter(pk=work_id, state=WorkState.WAITING).update(
        state=WorkState.RUNNING, holder=holder, seen_at=now, started_at=now, tries=F("tries") + 1, done=0
    )
    if not took:
        return None
    return WorkInHand(BackgroundWork.objects.select_related("asked_by").get(pk=work_id), holder)
