"""Nothing is left out of the record of changes by oversight: every model is told of, or says why not."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from django.apps import apps
from django.db.models import Model

from quotes.actions.audit.plain import told_fields
from quotes.models.audited import AUDITED, LEFT_OUT, SECRET, left_out_because

ROOT = Path(__file__).resolve().parents[2]
BULK = {"bulk_create", "bulk_update", "update", "_raw_delete"}
NOT_TOLD_OF = {
    "quotes/actions/import_customers.py": "one entry on the file, with how many rows it added",
    "quotes/actions/signed_in.py": "when a sign-in was last used",
    "quotes/actions/sent_forms.py": "where a form led to that was sent twice",
    "quotes/actions/background.py": "the queue",
    "quotes/actions/background_hand.py": "the queue",
    "quotes/actions/background_lost.py": "the queue",
    "quotes/actions/files_moved.py": "where a file lies; its fingerprint stays",
    "quotes/actions/forgotten.py": "words of the record of changes itself, taken out for good",
    "quotes/actions/erasing.py": "each erased row has a row of its own that says so",
    "quotes/actions/sample.py": "one entry that says that all rows of the sample went",
    "quotes/actions/years/filling.py": "one entry for a run that fills a workshop for measuring",
    "quotes/actions/years/taking.py": "the same run",
    "quotes/actions/audit/bulk.py": "where each is told of",
    "quotes/actions/audit/writing.py": "the record of changes itself",
}


def test_every_model_is_told_of_or_says_why_not() -> None:
    labels = {model._meta.label_lower for model in apps.get_models()}
    undecided = {label for label in labels if (label in AUDITED) == bool(left_out_because(label))}
    assert undecided == set()
    assert {*AUDITED, *LEFT_OUT} <= labels


def test_fields_that_hold_secrets_are_known_as_such() -> None:
    words = ("password", "token", "secret", "session")
    for label in AUDITED:
        model: type[Model] = apps.get_model(label)
        names = {name for name, _ in told_fields(model) if any(word in name for word in words)}
        assert names - {"session_loss"} <= SECRET.get(label, set()), label


def test_rows_are_written_in_bulk_only_where_each_is_told_of() -> None:
    assert {*_writing_in_bulk()} <= {*NOT_TOLD_OF}


def _writing_in_bulk() -> Iterator[str]:
    """Files of the actions that call a queryset's bulk writes; a dictionary's `update` takes no names."""
    for path in (ROOT / "quotes" / "actions").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Attribute):
                continue
            named = node.func.attr != "update" or (node.keywords and not node.args)
            if node.func.attr in BULK and named:
                yield path.relative_to(ROOT).as_posix()
