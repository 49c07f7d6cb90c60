"""Takes in what was changed in a workbook of the catalogue: all or nothing, as if it were done by hand."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import datetime

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction

from catalogue.actions.changed import catalogue_loaded
from catalogue.actions.entries import Written, count_up, last_versions, write_rows
from catalogue.actions.lives import hold_lives as hold_catalogue
from catalogue.actions.refused import Refused
from catalogue.actions.remembering import remember, remember_added, remember_removed
from catalogue.calc.book.moves import EntryMove
from catalogue.calc.said import say
from catalogue.models import CatalogueVersion
from catalogue.queries.book.plan import BookGiven, BookPlan, Uses, plan_of
from catalogue.queries.shapes import SHAPES


class BookMoved(Refused):
    """The catalogue has changed since the workbook was checked, so that it would do something else now."""

    def __init__(self) -> None:
        super().__init__(
            say(
                "The catalogue has changed since you looked. Nothing was taken in: look at what the "
                "workbook would change now."
            )
        )


def take_in_book(
    *, given: BookGiven, looked_at: BookPlan, used: Uses, source: str, by: User | None, now: datetime
) -> BookPlan:
    """Do what was looked at. Raises BookMoved where it is something else by now; nothing is done then."""
    try:
        with transaction.atomic():
            hold_catalogue()
            plan = plan_of(given, used)
            if not plan.sound or plan.digest != looked_at.digest:
                raise BookMoved
            if plan.moves:
                _write(plan, source, by, now)
                count_up()
    except IntegrityError as error:
        # What the database alone sees, such as a name that somebody has given to another entry meanwhile.
        raise BookMoved from error
    return plan


def _write(plan: BookPlan, source: str, by: User | None, now: datetime) -> None:
    first = not plan.at
    written: dict[str, list[Written]] = defaultdict(list)
    versions = {kind: last_versions(kind) for kind in {move.kind for move in plan.moves}}
    for kind in versions:
        shape = SHAPES[kind]
        places = dict(shape.model._default_manager.values_list("code", "place"))
        after = max(places.values(), default=-1) + 1
        for move in plan.moves:
            if move.kind == kind and move.after is not None:
                place = places.get(move.code, after)
                after += move.before is None
                written[kind].append(Written(move.after, versions[kind].get(move.code, 0) + 1, place))
    write_rows(written=written)
    _take_out(plan.removed)
    if first:
        counts = {f"{kind}.added": len(rows) for kind, rows in written.items()}
        catalogue_loaded.send(sender=CatalogueVersion, counts=counts)
        return
    for move in plan.moves:
        _keep(move, versions[move.kind].get(move.code, 0) + 1, source, by, now)


def _take_out(removed: Sequence[EntryMove]) -> None:
    """Those that others point at go last; nothing that stays points at any of them."""
    for kind in reversed(SHAPES):
        codes = [move.code for move in removed if move.kind == kind]
        if codes:
            SHAPES[kind].model._default_manager.filter(code__in=codes).delete()


def _keep(move: EntryMove, version: int, source: str, by: User | None, now: datetime) -> None:
    if move.after is None:
        assert move.before is not None
        remember_removed(move.kind, move.before, version, by, now)
    elif move.before is None:
        remember_added(move.kind, move.after, version, by, now)
    else:
        remember(move.kind, move.before, move.after, move.fields, version, source, by, now)
