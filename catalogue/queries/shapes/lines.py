"""The lines that come again: codes in their order, with or without a role."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from django.db import models

from catalogue.queries.shapes.shape import Dump, Line, Lines, at, put


def codes(model: type[models.Model], owner: str, target: str, path: str) -> Lines:
    """Lines that are the codes at `path`, in order."""

    def split(dump: Dump) -> list[Line]:
        return [{"position": place, target: code} for place, code in enumerate(at(dump, path) or ())]

    def join(lines: Sequence[Line]) -> Dump:
        dump: Dump = {}
        put(dump, path, [line[target] for line in lines])
        return dump

    return Lines(model, owner, ("position", target), split, join)


def codes_by_role(
    model: type[models.Model], owner: str, targets: Mapping[str, str], paths: Mapping[str, str]
) -> Lines:
    """Lines that are the codes at several paths, each under its role.

    `paths` gives the path of each role, `targets` the column that its codes stand in.
    """
    columns = tuple(dict.fromkeys(targets.values()))

    def split(dump: Dump) -> list[Line]:
        empty = dict.fromkeys(columns)
        return [
            {**empty, "role": role, "position": place, targets[role]: code}
            for role, path in paths.items()
            for place, code in enumerate(at(dump, path) or ())
        ]

    def join(lines: Sequence[Line]) -> Dump:
        dump: Dump = {}
        for role, path in paths.items():
            found = [line[targets[role]] for line in lines if line["role"] == role]
            if found:
                put(dump, path, found)
        return dump

    return Lines(model, owner, ("role", "position", *columns), split, join)
