"""Having long work done in the background: `run_later` asks for it, once for each key.

What does it is a function of a module, called with a `Hand` and what it was given. It may be begun again
from the start, since whoever had it in hand may have died; so what it keeps it keeps in `hand.keep()`,
one transaction together with the word that the work is done.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Mapping
from typing import Any, Protocol

from django.conf import settings
from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone
from django.utils.module_loading import import_string
from django.utils.translation import get_language, override
from django_tasks import task

from catalogue.calc.said import say
from quotes.actions.audit.who import a_command, a_person, acting_as
from quotes.actions.background_hand import Lost, take_in_hand
from quotes.actions.refused import Refused
from quotes.models import BackgroundWork
from quotes.models.background_work import WorkState

AT_ONCE = "at once"
"""The setting under which work is done where it is asked for, as in tests."""
log = logging.getLogger(__name__)


class Work(Protocol):
    """A function of a module that does a work. What it says of a fault in `Refused` is shown as it is."""

    __module__: str
    __qualname__: str

    def __call__(self, hand: Any, /, **arguments: Any) -> None: ...


def run_later(
    function: Work | Callable[..., None],
    arguments: Mapping[str, Any],
    *,
    key: str,
    about: str,
    page: str = "",
    by: User | None,
) -> BackgroundWork:
    """Have it done in the background, once this transaction is kept; asked for twice by one key, once.

    `page` is the address where its result is seen: who may open that may see how far the work is.
    A work that failed is done again.
    """
    with transaction.atomic():
        work, new = _asked(function, arguments, key=key, about=about, page=page, by=by)
        if new:
            _queue(work)
    work.refresh_from_db()
    return work


@transaction.atomic
def run_again(work: BackgroundWork) -> None:
    """Have once more done what failed, with what it was given; what did not fail stays as it is."""
    if _anew(work):
        _queue(work)


def _anew(work: BackgroundWork, **told: Any) -> bool:
    again = {"state": WorkState.WAITING, "failed_because": "", "tries": 0, "ended_at": None, **told}
    return bool(BackgroundWork.objects.failed().filter(pk=work.pk).update(**again))


def _queue(work: BackgroundWork) -> None:
    if settings.BACKGROUND == AT_ONCE:
        do_work(work.pk)
    else:
        do_queued.enqueue(work.pk)


@transaction.atomic
def _asked(
    function: Work | Callable[..., None],
    arguments: Mapping[str, Any],
    *,
    key: str,
    about: str,
    page: str,
    by: User | None,
) -> tuple[BackgroundWork, bool]:
    """The row of the key, and whether it is now to be done."""
    wanted = {
        "function": f"{function.__module__}.{function.__qualname__}",
        "arguments": dict(arguments),
        "about": about[:200],
        "page": page,
        "language": get_language() or settings.LANGUAGE_CODE,
        "asked_by": by,
        "asked_at": timezone.now(),
    }
    work, new = BackgroundWork.objects.get_or_create(key=key, defaults=wanted)
    if not new:
        new = _anew(work, **wanted)
        work.refresh_from_db()
    return work, new


@task()
def do_queued(work_id: int) -> None:
    """What the queue calls."""
    do_work(work_id)


def do_work(work_id: int) -> None:
    """Do it, unless another has it in hand or it has ended. What goes wrong is kept in words."""
    held = take_in_hand(work_id)
    if held is None:
        return
    work = held.work
    who = a_person(work.asked_by) if work.asked_by else a_command()
    with acting_as(lambda: who), override(work.language), held.showing():
        try:
            import_string(work.function)(held, **work.arguments)
            held.end()
        except Lost:
            log.warning("%s went to another hand: nothing of it was kept here", work.key)
        except Refused as refused:
            held.fail(str(refused))
        except Exception as error:
            if settings.BACKGROUND == AT_ONCE:
                raise
            log.exception("%s failed", work.key)
            held.fail(_in_words(error))
        except BaseException:
            # The process is told to end: another takes it up.
            held.let_go()
            raise


def _in_words(error: Exception) -> str:
    return say(
        "Nothing of it was kept, because of a fault of the program or of the machine: {fault}",
        fault=f"{type(error).__name__}: {error}"[:500],
    )
