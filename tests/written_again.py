"""What many tests begin with: made once in a run, and from then on written again as it was.

Making an accepted build takes 30 ms, writing its rows again 2 ms, and a thousand tests begin with one.
"""

from __future__ import annotations

import pickle
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import wraps
from typing import Any, ParamSpec, TypeVar

from django.db import connection
from django.db.models import Model

from quotes.actions.books import drawing
from quotes.database.before_commit import Waiting

P = ParamSpec("P")
T = TypeVar("T")
WRITES = ("INSERT", "UPDATE", "DELETE")
TAKES_BACK = ("ROLLBACK", "TRUNCATE")
RECORD_OF_CHANGES = "quotes_audit"
"""A test that commits has it written as well; its entries follow those before them, so none comes again."""


@dataclass
class _Written:
    """What the present test has put to the database."""

    statements: list[tuple[str, Any]] = field(default_factory=list)
    made: tuple[Any, ...] | None = None
    """What was made one after the other since the test began, as long as nothing else was written."""
    until: int = 0
    """How many statements that took."""
    known: bool = True
    """Whether the statements are all there is to say of what stands."""

    def hear(self, execute: Callable[..., Any], sql: Any, params: Any, many: bool, context: Any) -> Any:
        if isinstance(sql, str) and sql.startswith(WRITES):
            self.known = self.known and not many
            self.statements.append((sql, params))
        elif not isinstance(sql, str) or sql.startswith(TAKES_BACK):
            self.known = False
        return execute(sql, params, many, context)

    def stands(self) -> tuple[Any, ...] | None:
        """What was made, where that is all that was written."""
        alone = self.known and connection.in_atomic_block and self.until == len(self.statements)
        return self.made if alone else None


_written = _Written()
_first_keys = ""
"""The statement that lets keys begin again where they began in the first test. SQLite does so by itself."""


def hear() -> None:
    """Called once in a run, as the test database stands."""
    global _first_keys
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            last = "coalesce(last_value, start_value), last_value IS NOT NULL"
            each = f"format('setval(%L, %s, %L)', sequencename, {last})"
            cursor.execute(f"SELECT string_agg({each}, ', ') FROM pg_sequences WHERE schemaname = 'public'")
            _first_keys = f"SELECT {cursor.fetchone()[0]}"


def begin_test(taken_back: bool) -> None:
    """Before each test: whether all that it writes is taken back at its end."""
    global _written
    if _written.hear in connection.execute_wrappers:
        connection.execute_wrappers.remove(_written.hear)
    _written = _Written(made=() if taken_back else None)
    connection.execute_wrappers.append(_written.hear)


def make_anew() -> None:
    """From here on in this test: it has put something in the place of what is called."""
    _written.known = False


def _begins_empty() -> bool:
    """Whether no fixture of a whole module has written anything; keys begin where they began at first."""
    with connection.cursor() as cursor:
        cursor.execute("SELECT EXISTS (SELECT 1 FROM auth_user) OR EXISTS (SELECT 1 FROM quotes_workshop)")
        if cursor.fetchone()[0]:
            return False
        if _first_keys:
            cursor.execute(_first_keys)
    return True


def written_again(make: Callable[P, T]) -> Callable[P, T]:
    """As the first thing in a test, or right after another such: what was made before of the same.

    Written again are its rows, what waits for the commit, and a copy of what was given back. After anything
    else that the test wrote, and where it commits, it is made.
    """
    kept: dict[Any, _Kept] = {}

    @wraps(make)
    def made(*args: P.args, **options: P.kwargs) -> T:
        before, asked = _written.stands(), _asked(args, options)
        if before is None or " at 0x" in asked:
            return make(*args, **options)
        if before == () and not _begins_empty():
            make_anew()
            return make(*args, **options)
        step = (*before, (make.__qualname__, asked, drawing.drawn))
        if step in kept:
            came: T = kept[step].again()
        else:
            each = _Kept()
            came = each.watch(lambda: make(*args, **options))
            if not each.whole:
                return came
            kept[step] = each
        _written.made, _written.until = step, len(_written.statements)
        return came

    return made


@dataclass
class _Kept:
    """What was written, what waits for the commit, and what was given back."""

    writes: list[tuple[str, Any]] = field(default_factory=list)
    waiting: list[Any] = field(default_factory=list)
    came: bytes = b""
    whole: bool = False

    def watch(self, make: Callable[[], T]) -> T:
        waited, wrote = len(connection.run_on_commit), len(_written.statements)
        came = make()
        self.waiting = [each[1] for each in connection.run_on_commit[waited:]]
        self.writes = [each for each in _written.statements[wrote:] if RECORD_OF_CHANGES not in each[0]]
        self.whole = _written.known and all(isinstance(call, Waiting) for call in self.waiting)
        self.came = pickle.dumps(came)
        return came

    def again(self) -> Any:
        with connection.cursor() as cursor:
            for sql, params in self.writes:
                cursor.execute(sql, params)
        for call in self.waiting:
            connection.on_commit(call)
        return pickle.loads(self.came)


def _asked(args: tuple[Any, ...], options: dict[str, Any]) -> str:
    return repr([*map(_named, args), *((name, _named(value)) for name, value in sorted(options.items()))])


def _named(value: Any) -> Any:
    return (value._meta.label, value.pk) if isinstance(value, Model) else value
