"""Looks through every kind that the asker may open: one query a kind, and one for each column of names.

A number that we gave is found by its beginning, along an index; what can't be of a kind is not asked for.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import reduce
from operator import or_
from typing import Any

from django.db import models
from django.db.models import Case, Q, Value, When

from catalogue.calc.said import say
from catalogue.calc.search_key import search_key
from quotes.calc.find import Found, Hit, Sought, beginnings, is_exactly, matching
from quotes.models import Customer, Engine
from quotes.models.words import bearing
from quotes.queries.find.along import begins, names_along
from quotes.queries.find.kind import Kind

Borne = dict[tuple[type[models.Model], str], Any]
"""The keys of customers and engines that bear each word."""

SHOWN = 6
"""So many of a kind: who needs more asks for more letters, or goes to the list."""


def found_among(kinds: Iterable[Kind], looked_for: Sought) -> tuple[Found, ...]:
    """What bears every word, by kind; kinds of which nothing was found are left out."""
    if not looked_for.is_enough:
        return ()
    borne = _borne(looked_for)
    groups = (_of_kind(kind, looked_for, borne) for kind in kinds)
    return tuple(group for group in groups if group.hits)


def _borne(looked_for: Sought) -> Borne:
    """Customers and engines are looked up once for all kinds that are found by them."""
    return {
        (model, word): keys
        for model, rows in ((Customer, Customer.objects.all()), (Engine, Engine.objects.all()))
        for word, keys in zip(looked_for.words, bearing(rows, looked_for.words).keys, strict=True)
    }


def _of_kind(kind: Kind, looked_for: Sought, borne: Borne) -> Found:
    order: tuple[Case | str, ...] = (*_rank(kind, looked_for), kind.order, "pk")
    keys = kind.rows.filter(_wanted(kind, looked_for, borne)).order_by(*order).values("pk")[: SHOWN + 1]
    columns = ("pk", kind.named, *(path for _, path in kind.told))
    seen = list(kind.rows.filter(pk__in=keys).order_by(*order).values_list(*columns))
    hits = tuple(_hit(kind, looked_for, row) for row in seen[:SHOWN])
    return Found(say(kind.title), hits, more=len(seen) > SHOWN)


def _rank(kind: Kind, looked_for: Sought) -> tuple[Case, ...]:
    """What is called just as was typed stands first; of many documents only where a number was typed."""
    if kind.many and not looked_for.number:
        return ()
    called = (
        {kind.named: looked_for.number} if looked_for.number else {f"{kind.named}__iexact": looked_for.typed}
    )
    first = [When(**called, then=Value(0))]
    if kind.by_customer and looked_for.customer:
        first.append(When(pk=looked_for.customer, then=Value(0)))
    return (Case(*first, default=Value(1)),)


def _bears(model: type[models.Model], path: str, word: str, borne: Borne) -> Q:
    """That a key holds the word. One in another table is looked for there first, once and by itself."""
    first, _, rest = path.partition("__")
    if not rest:
        return Q(pk__in=borne[model, word]) if (model, word) in borne else Q(**{f"{first}__contains": word})
    other: Any = model._meta.get_field(first).related_model
    if rest == "search_key" and (other, word) in borne:
        return Q(**{f"{first}__in": borne[other, word]})
    found = other._default_manager.order_by().filter(_bears(other, rest, word, borne))
    return Q(**{f"{first}__in": found.values("pk")})


def _wanted(kind: Kind, looked_for: Sought, borne: Borne) -> Q:
    names = {name: search_key(name) for name in names_along(kind.model, kind.names)} if kind.names else {}
    every = Q()
    for word in looked_for.words:
        one = Q(pk__in=[])
        for path in kind.keys:
            one |= _bears(kind.model, path, word, borne)
        for path in kind.plain:
            one |= Q(**{f"{path}__icontains": word})
        if kind.names:
            one |= Q(**{f"{kind.names}__in": [name for name, key in names.items() if word in key]})
        if kind.own and not looked_for.number:
            one |= _in_own_number(kind, word)
        every &= one
    if looked_for.number and kind.own:
        every |= _begins_with("".join(looked_for.words))
    elif looked_for.number and kind.numbered:
        every |= Q(**{kind.named: looked_for.number})
    if looked_for.customer and kind.by_customer:
        every |= Q(pk=looked_for.customer)
    return every


def _in_own_number(kind: Kind, word: str) -> Q:
    """Digits anywhere in it, all else as its beginning."""
    if word.isdigit():
        return Q(**{f"{kind.digits}__contains": word})
    return _begins_with(word)


def _begins_with(word: str) -> Q:
    return reduce(or_, (begins("number", start) for start in beginnings(word)))


def _hit(kind: Kind, looked_for: Sought, row: tuple[Any, ...]) -> Hit:
    key, called, *told = row
    title = called or (say(kind.called, key=key) if kind.called else "")
    is_meant = kind.by_customer and key == looked_for.customer
    values = [(say(label), value or "") for (label, _), value in zip(kind.told, told, strict=True)]
    return Hit(
        page=kind.page,
        args=(*kind.before, key),
        title=title,
        told=tuple(dict.fromkeys(value for _, value in values if value)),
        by=(say("number"),) if is_meant else matching(looked_for.words, [(say(kind.by), title), *values]),
        exact=is_meant or (kind.numbered and is_exactly(looked_for, called or "")),
    )
