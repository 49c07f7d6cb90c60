"""Tables made together, which a migration would make one after the other."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Any

from django.db.migrations.operations import AddIndex, CreateModel
from django.db.migrations.operations.base import Operation

TOGETHER = CreateModel, AddIndex
"""What looks at nothing but its own table as it stands at the end of the group."""


class AtOnce(Operation):
    """Operations of one kind as one.

    Django builds every model anew that a new table is related to, and here all are related: of a hundred
    tables that is most of the time a migration takes. Once all of the group are known, they are built once.
    """

    def __init__(self, operations: Sequence[Operation]) -> None:
        self.operations = operations

    def state_forwards(self, app_label: str, state: Any) -> None:
        """All of them, and the models built from that when they are next asked for."""
        state.__dict__.pop("apps", None)
        for each in self.operations:
            each.state_forwards(app_label, state)

    def database_forwards(self, app_label: str, schema_editor: Any, from_state: Any, to_state: Any) -> None:
        """One after the other, as they stand."""
        for each in self.operations:
            each.database_forwards(app_label, schema_editor, from_state, to_state)

    def database_backwards(self, app_label: str, schema_editor: Any, from_state: Any, to_state: Any) -> None:
        """From the last to the first."""
        for each in reversed(self.operations):
            each.database_backwards(app_label, schema_editor, from_state, to_state)

    def describe(self) -> str:
        """What `migrate --plan` says."""
        return ", ".join(each.describe() for each in self.operations)


def at_once(operations: Sequence[Operation]) -> list[Operation]:
    """The same operations, those of one kind that follow each other as one."""
    grouped: list[Operation] = []
    for kind, each in groupby(operations, type):
        found = list(each)
        grouped += [AtOnce(found)] if kind in TOGETHER else found
    return grouped
