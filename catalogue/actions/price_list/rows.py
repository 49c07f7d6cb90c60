"""Writes what is listed, in bulk, and keeps what each list said as history."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

from django.db import connection

from catalogue.actions.price_list.checking import Tell
from catalogue.calc.price_list.standing import Stands
from catalogue.calc.search_key import search_key
from catalogue.models import ListedPart, ListedPrice
from catalogue.queries.price_lists import COLUMNS

AT_ONCE = 2_000
SEARCHED = 600
WRITTEN = (*COLUMNS, "search_key", "price_list")
"""All columns but the two that tell one article from another."""


def write_listed(supplier: str, rows: Sequence[tuple[int, Stands]], tell: Tell) -> None:
    """Write articles as they shall stand, each with the list that says so."""
    done = 0
    for some in _in_lots(rows):
        ListedPart.objects.bulk_create(
            [
                ListedPart(
                    supplier_id=supplier,
                    price_list_id=price_list,
                    search_key=search_key(one.number, one.number_key, one.name)[:SEARCHED],
                    **one._asdict(),
                )
                for price_list, one in some
            ],
            update_conflicts=True,
            unique_fields=["supplier", "number_key"],
            update_fields=[name for name in WRITTEN if name != "number_key"],
        )
        done += len(some)
        tell(done, len(rows))


def keep_history(price_list: int) -> None:
    """Keep what a list has just said, in one statement: no row leaves the database for it."""
    columns = ", ".join(connection.ops.quote_name(name) for name in (*COLUMNS, "price_list_id"))
    into, out_of = (connection.ops.quote_name(model._meta.db_table) for model in (ListedPrice, ListedPart))
    with connection.cursor() as cursor:
        # All names are our own.
        taken = f"INSERT INTO {into} ({columns}) SELECT {columns} FROM {out_of}"  # noqa: S608
        cursor.execute(f"{taken} WHERE price_list_id = %s", [price_list])


def _in_lots(rows: Iterable[tuple[int, Stands]]) -> Iterator[list[tuple[int, Stands]]]:
    waiting = iter(rows)
    while some := list(islice(waiting, AT_ONCE)):
        yield some
