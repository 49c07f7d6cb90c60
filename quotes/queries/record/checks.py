"""What `manage.py verify` asks of the record. One more check is one more line here.

A check gives, for each thing that it looked at, the faults that it found there; mostly none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from quotes.calc.record.fault import RecordFault
from quotes.queries.record.as_told import rows_as_told
from quotes.queries.record.chained import chained_changes
from quotes.queries.record.changes import changed_factors, changed_lives
from quotes.queries.record.documents import issued_documents
from quotes.queries.record.erased import erased_rows
from quotes.queries.record.files import kept_copies, stored_files
from quotes.queries.record.ledger import ledger
from quotes.queries.record.listed import listed_parts
from quotes.queries.record.money import bills, extra_work, invoiced_builds, orders, payments_and_items
from quotes.queries.record.numbers import numbered
from quotes.queries.record.protection import protected_tables

Faults = tuple[RecordFault | str, ...]


@dataclass(frozen=True, slots=True)
class Check:
    """`counts` says in the plural what it looks at."""

    counts: str
    look: Callable[[], Iterator[Faults]]


CHECKS = (
    Check("documents", issued_documents),
    Check("offers of extra work", extra_work),
    Check("purchase orders", orders),
    Check("builds", invoiced_builds),
    Check("suppliers' bills", bills),
    Check("payments and open items", payments_and_items),
    Check("files", stored_files),
    Check("files handed in", kept_copies),
    Check("series of numbers", numbered),
    Check("journal entries", ledger),
    Check("changed lives", changed_lives),
    Check("changed factors", changed_factors),
    Check("listed parts", listed_parts),
    Check("changes and their head", chained_changes),
    Check("erased rows", erased_rows),
    Check("rows as they were told of", rows_as_told),
    Check("protected tables", protected_tables),
)
