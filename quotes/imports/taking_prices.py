"""A kept price list is read and held against what stands, taken in or undone: in the background."""

from __future__ import annotations

import hashlib
import json
import logging
from collections.abc import Callable, Collection, Iterator, Mapping
from contextlib import contextmanager
from datetime import date

from django.contrib.auth.models import User
from django.urls import reverse
from django.utils import timezone

from catalogue.actions.price_list.checking import check_list
from catalogue.actions.price_list.taking import bring_due_into_force, take_list
from catalogue.actions.price_list.taking_held import take_held
from catalogue.actions.price_list.undoing import undo_list
from catalogue.actions.refused import Refused as CatalogueRefused
from catalogue.calc.price_list.reading import Reading, ReadList
from catalogue.calc.said import say, to_say
from catalogue.models import PriceList
from catalogue.models.file_store import DamagedFile, FileGone, FileTrouble, StoreSilent
from catalogue.queries.price_lists import due
from quotes.actions.background import run_later
from quotes.actions.background_hand import Hand
from quotes.actions.refused import Refused
from quotes.imports.faults import FileFault
from quotes.imports.price_list.read import read_price_list
from quotes.models import BackgroundWork

log = logging.getLogger(__name__)
WHY_NOT: Mapping[type[FileTrouble], str] = {
    FileGone: to_say(
        "The file {file} is gone from where files are kept, so nothing was changed. Whoever looks after the "
        "machine fetches it from a backup; or hand the list in again."
    ),
    DamagedFile: to_say(
        "The file {file} is not what was handed in any more, so nothing was changed. Whoever looks after the "
        "machine fetches it from a backup; or hand the list in again."
    ),
    StoreSilent: to_say(
        "Where files are kept does not answer, so {file} can't be read and nothing was changed. Try again in "
        "a few minutes; if it stays so, whoever looks after the machine looks there."
    ),
}


def ask_check(*, price_list: PriceList, on: date, by: User) -> BackgroundWork:
    """Have it held against what stands, as it would be in force from that day."""
    # A list may be checked any number of times; a second press asks for the same check.
    how = json.dumps([price_list.reading, price_list.whole, on.isoformat()], sort_keys=True)
    last = price_list.checked_at or price_list.handed_in_at
    mark = f"{last:%Y%m%dT%H%M%S.%f}:{hashlib.sha256(how.encode()).hexdigest()[:16]}"
    about = say("The check of {file}", file=price_list.name)
    return _later(check_now, price_list, f"check:{mark}", about, by, on=on.isoformat())


def ask_take(*, price_list: PriceList, on: date, by: User) -> BackgroundWork:
    """Have it taken in as it was checked."""
    about = say("Taking in {file}", file=price_list.name)
    mark = f"take:{price_list.checked_at:%Y%m%dT%H%M%S.%f}:{price_list.counts.get('yes', 0)}"
    return _later(take_now, price_list, mark, about, by, on=on.isoformat(), by_id=by.pk)


def ask_held(*, price_list: PriceList, keys: Collection[str] | None, by: User) -> BackgroundWork:
    """Have what it held back taken in with the owner's yes: the prices named, or all where none are."""
    about = say("Taking in held prices of {file}", file=price_list.name)
    named = None if keys is None else sorted(keys)
    which = hashlib.sha256(json.dumps(named).encode()).hexdigest()[:16]
    mark = f"held:{price_list.counts.get('yes', 0)}:{which}"
    return _later(held_now, price_list, mark, about, by, keys=named, by_id=by.pk)


def ask_undo(*, price_list: PriceList, by: User) -> BackgroundWork:
    """Have it undone as a whole."""
    about = say("Undoing {file}", file=price_list.name)
    return _later(undo_now, price_list, f"undo:{timezone.now():%Y%m%dT%H%M}", about, by, by_id=by.pk)


def ask_due(*, on: date) -> None:
    """Have every list brought into force whose day has come; each once a day, until it is."""
    for row in PriceList.objects.filter(pk__in=due(on)).told():
        about = say("Prices of {file} come into force", file=row.name)
        _later(due_now, row, f"due:{on}", about, None)


def _later(
    function: Callable[..., None],
    row: PriceList,
    what: str,
    about: str,
    by: User | None,
    **arguments: object,
) -> BackgroundWork:
    page = reverse("price-list", args=[row.pk])
    key = f"price-list:{row.pk}:{what}"
    return run_later(function, {"pk": row.pk, **arguments}, key=key, about=about, page=page, by=by)


def work_of(price_list: int) -> BackgroundWork | None:
    """What is being done with a list, or was done last."""
    return BackgroundWork.objects.filter(key__startswith=f"price-list:{price_list}:").first()


def check_now(hand: Hand, *, pk: int, on: str) -> None:
    """Read it and hold it against what stands."""
    with _said():
        given = read_kept(pk, hand)
        with hand.keep():
            check_list(pk=pk, given=given, on=date.fromisoformat(on), now=timezone.now())


def take_now(hand: Hand, *, pk: int, on: str, by_id: int) -> None:
    """Read it and take it in."""
    with _said():
        given = read_kept(pk, hand)
        by = User.objects.get(pk=by_id)
        with hand.keep():
            day = date.fromisoformat(on)
            take_list(pk=pk, given=given, by=by, on=day, now=timezone.now(), tell=_written(hand))


def held_now(hand: Hand, *, pk: int, keys: list[str] | None, by_id: int) -> None:
    """Read it and take in what it held back."""
    with _said():
        given = read_kept(pk, hand)
        by, now = User.objects.get(pk=by_id), timezone.now()
        with hand.keep():
            take_held(pk=pk, given=given, keys=keys, by=by, now=now, tell=_written(hand))


def due_now(hand: Hand, *, pk: int) -> None:
    """Read it and bring it into force."""
    with _said():
        given = read_kept(pk, hand)
        with hand.keep():
            bring_due_into_force(pk=pk, given=given, now=timezone.now(), tell=_written(hand))


def undo_now(hand: Hand, *, pk: int, by_id: int) -> None:
    """Put back what stood before."""
    with _said(), hand.keep():
        undo_list(pk=pk, by=User.objects.get(pk=by_id), now=timezone.now(), tell=_written(hand))


def read_kept(pk: int, hand: Hand) -> ReadList:
    """The kept file, read as somebody chose."""
    row = PriceList.objects.only("held", "place", "sha256", "name", "handed_in_at", "reading").get(pk=pk)
    hand.at(0, 0, say("lines are read"))
    reading = Reading.model_validate(row.reading)
    given = read_price_list(row.content, row.name, reading, tell=lambda lines: hand.at(lines, 0))
    hand.at(0, 0, say("it is held against what stands"))
    return given


def _written(hand: Hand) -> Callable[[int, int], None]:
    return lambda done, of: hand.at(done, of, say("articles are written"))


@contextmanager
def _said() -> Iterator[None]:
    """What was refused in words that can be shown as they are."""
    try:
        yield
    except (CatalogueRefused, FileFault) as refused:
        raise Refused(str(refused)) from refused
    except FileTrouble as trouble:
        log.error("%s", trouble)
        raise Refused(say(WHY_NOT[type(trouble)], file=trouble.file)) from trouble
