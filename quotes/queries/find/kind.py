"""One kind of thing that the box finds: where its rows are looked through, and how they are shown."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db import models


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind, with the columns that are searched, by their paths from its model."""

    title: str
    says: str
    """What it is found by, told beside the box."""
    page: str
    """The name of the address that shows one."""
    model: type[models.Model]
    named: str
    """The column that it is called by."""
    told: tuple[tuple[str, str], ...]
    """What is shown beside it: the word for what matched, and its column."""
    keys: tuple[str, ...] = ()
    """Columns of folded text (`search_key`)."""
    own: bool = False
    """Whether `named` is a number that we give (`number`), which is looked for by its beginning."""
    digits: str = "number"
    """Where digits alone are looked for, which may stand anywhere in such a number."""
    plain: tuple[str, ...] = ()
    """Columns of marks and of others' numbers, which are looked for as typed."""
    names: str = ""
    """A column of names that are not kept folded: there are few, so they are read and folded first."""
    before: tuple[str, ...] = ()
    """What its address takes before its own key."""
    numbered: bool = True
    """Whether `named` is a number, so that the very one typed leads straight there."""
    called: str = ""
    """What it is called where `named` is empty."""
    by_customer: bool = False
    """Whether its key is the number of a customer, as in C-7."""
    by: str = "number"
    """The word for `named`, where that is what matched."""
    order: str = "-pk"
    many: bool = False
    """Whether there are so many that they are not sorted by how well they fit."""

    @property
    def rows(self) -> models.QuerySet[Any]:
        return self.model._default_manager.all()
