"""Rows that are written once: what has been issued or said is neither changed nor deleted."""

from __future__ import annotations

from typing import Any, ClassVar, NoReturn, TypeVar

from django.db import models

Row = TypeVar("Row", bound=models.Model)


class IssuedForGood(Exception):
    """Somebody tried to change or delete what has been issued or said."""


class FrozenQuerySet(models.QuerySet[Row]):
    """A queryset that refuses to change or delete rows in bulk."""

    def update(self, **changes: Any) -> NoReturn:
        raise IssuedForGood(f"{self.model._meta.verbose_name}: issued rows do not change")

    def delete(self) -> NoReturn:
        raise IssuedForGood(f"{self.model._meta.verbose_name}: issued rows are not deleted")


class Frozen(models.Model):
    """A row that can be saved once. `LATER` names the fields that are filled in after that."""

    LATER: ClassVar[frozenset[str]] = frozenset()

    class Meta:
        abstract = True

    def save(self, *args: Any, **options: Any) -> None:
        """Insert the row, or fill in fields named in `LATER`; IssuedForGood for anything else."""
        changed = frozenset(options.get("update_fields") or ())
        if not self._state.adding and not (changed and changed <= self.LATER):
            raise IssuedForGood(f"{self._meta.verbose_name} {self}: issued rows do not change")
        super().save(*args, **options)

    def delete(self, *args: Any, **options: Any) -> NoReturn:
        raise IssuedForGood(f"{self._meta.verbose_name} {self}: issued rows are not deleted")
