"""Tables that a migration makes together are the ones that it would make one after the other."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection, models
from django.db.migrations import AddIndex, CreateModel, Migration
from django.db.migrations.operations.base import Operation
from django.db.migrations.state import ProjectState

from quotes.database.at_once import AtOnce, at_once

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def only_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """SQLite lets nobody change tables while it checks keys; here none is changed."""
    monkeypatch.setattr(connection, "disable_constraint_checking", lambda: True)


def one_by_one() -> list[Operation]:
    """A part, a bin that holds it and knows its neighbour, and two indexes."""
    key = models.AutoField(primary_key=True)
    part = models.ForeignKey("quotes.MadePart", models.CASCADE)
    beside = models.ForeignKey("self", models.CASCADE, null=True)
    name = models.CharField(max_length=9)
    return [
        CreateModel("MadePart", [("id", key), ("name", name)]),
        CreateModel("MadeBin", [("id", key), ("part", part), ("beside", beside)]),
        AddIndex("MadePart", models.Index(fields=["name"], name="made_part_name")),
        AddIndex("MadeBin", models.Index(fields=["part", "beside"], name="made_bin_part")),
    ]


def statements(operations: list[Operation], *, back: bool = False) -> list[str]:
    """What the database is told, from models that were built before, as in the midst of other migrations."""
    kind: Any = type("Made", (Migration,), {"operations": operations})
    migration = kind("made", "quotes")
    state = ProjectState()
    assert state.apps is not None
    with connection.schema_editor(collect_sql=True, atomic=False) as editor:
        go = migration.unapply if back else migration.apply
        go(state, editor, collect_sql=True)
    return [str(each) for each in editor.collected_sql]


def told(operations: list[Operation], *, back: bool = False) -> list[str]:
    return [each for each in statements(operations, back=back) if not each.startswith("--")]


def test_those_of_one_kind_that_follow_each_other_are_one() -> None:
    assert [type(each) for each in at_once(one_by_one())] == [AtOnce, AtOnce]


@pytest.mark.parametrize("back", [False, True], ids=["forwards", "backwards"])
def test_the_database_is_told_the_same(back: bool) -> None:
    assert len(told(one_by_one(), back=back)) >= 4
    assert told(at_once(one_by_one()), back=back) == told(one_by_one(), back=back)
