"""Listens to what is saved and deleted, and has an entry written for it at the end of the transaction."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

from django.apps import apps
from django.contrib.auth.models import Group, User
from django.db import connections, models
from django.db.models.signals import m2m_changed, post_delete, post_init, post_save, pre_save

from quotes.actions.audit.plain import called, secret_fields, told_fields, under, values_of
from quotes.actions.audit.writing import ToldEntry
from quotes.calc.record.leaf_changes import Pair, told_changes
from quotes.calc.record.plain_value import plain
from quotes.database.before_commit import wait
from quotes.models import AuditAction
from quotes.models.audited import AUDITED, NOT_SHOWN
from quotes.models.frozen import Frozen

AS_LOADED = "_as_loaded"
"""Where a row keeps what the database holds of it."""
EMPTY: tuple[Any, ...] = (None, "", [], {})


def listen() -> None:
    """Begin to listen; called once, when all models are there."""
    for model in apps.get_models():
        if model._meta.label_lower not in AUDITED:
            continue
        if not issubclass(model, Frozen) or model.LATER:
            # A row of which nothing is filled in later has nothing to remember.
            post_init.connect(_remember, sender=model, dispatch_uid="audit")
        pre_save.connect(_look_up, sender=model, dispatch_uid="audit")
        post_save.connect(_saved, sender=model, dispatch_uid="audit")
        post_delete.connect(_deleted, sender=model, dispatch_uid="audit")
    m2m_changed.connect(_roles_changed, sender=User.groups.through, dispatch_uid="audit")


def tell(row: models.Model, action: AuditAction, changes: Mapping[str, Pair]) -> None:
    """Have an entry written on a row. Secrets are left out; a row of which nothing differs needs none."""
    if not changes and action == AuditAction.CHANGED:
        return
    label = row._meta.label_lower
    wait(
        ToldEntry(
            action=action,
            record_type=label,
            record_id=str(row.pk),
            under=under(row),
            called=called(row),
            changes={name: (plain(was), plain(became)) for name, (was, became) in changes.items()},
        ),
        connections[row._state.db or "default"],
    )


def _remember(instance: models.Model, **_: Any) -> None:
    """Keep what was loaded, by attribute: one copy for each row read, so it has to be a quick one."""
    loaded = instance.__dict__.copy()
    loaded.pop(AS_LOADED, None)
    instance.__dict__[AS_LOADED] = loaded


def _look_up(instance: models.Model, raw: bool = False, **_: Any) -> None:
    """What the database holds of a row that was not read from it, yet may be there: one of a fixed key."""
    if raw or instance.pk is None or isinstance(instance, Frozen):
        return
    known, attributes = instance.__dict__.get(AS_LOADED, ()), dict(told_fields(type(instance))).values()
    if instance._state.adding or any(attribute not in known for attribute in attributes):
        rows = type(instance)._base_manager.filter(pk=instance.pk)
        instance.__dict__[AS_LOADED] = rows.values(*attributes).first() or {}


def _saved(
    instance: models.Model,
    created: bool,
    raw: bool = False,
    update_fields: Collection[str] | None = None,
    **_: Any,
) -> None:
    if raw:
        return
    if created:
        tell_added(instance)
    else:
        known: Mapping[str, Any] = instance.__dict__.get(AS_LOADED) or {}
        tell(instance, AuditAction.CHANGED, differences(instance, known, update_fields))
    _remember(instance)


def tell_added(row: models.Model) -> None:
    """Tell of a new row: all that it holds."""
    tell(row, AuditAction.ADDED, differences(row, {}, None))


def differences(row: models.Model, known: Mapping[str, Any], only: Collection[str] | None) -> dict[str, Pair]:
    """Before and after of each field that differs from what was known of it; secrets are not shown."""
    changes: dict[str, Pair] = {}
    attributes = dict(told_fields(type(row)))
    for name, value in values_of(row, only).items():
        was = known.get(attributes[name])
        if was == value or (was is None and value in EMPTY):
            continue
        if name in secret_fields(type(row)):
            changes[name] = (NOT_SHOWN if was else None, NOT_SHOWN)
        else:
            changes |= told_changes(name, plain(was), plain(value))
    return changes


def _deleted(instance: models.Model, **_: Any) -> None:
    changes = differences(instance, {}, None)
    gone = {name: (was, None) for name, (_, was) in changes.items()}
    tell(instance, AuditAction.DELETED, gone)


def _roles_changed(
    action: str, instance: User | Group, reverse: bool, pk_set: set[int] | None, **_: Any
) -> None:
    """A person was given a role or lost one; the roles of several people at once are told of one by one."""
    if action not in {"post_add", "post_remove", "pre_clear"}:
        return
    if isinstance(instance, Group):
        people = instance.user_set.filter(pk__in=pk_set) if pk_set is not None else instance.user_set.all()
        pairs = [(person, [instance.name]) for person in people]
    else:
        groups = Group.objects.filter(pk__in=pk_set) if pk_set is not None else instance.groups.all()
        pairs = [(instance, [group.name for group in groups])]
    for person, names in pairs:
        for name in names:
            pair = (None, name) if action == "post_add" else (name, None)
            tell(person, AuditAction.CHANGED, {"role": pair})
