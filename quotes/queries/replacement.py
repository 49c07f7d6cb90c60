"""When components are best renewed, by engine type and basis, with the catalogue and prices as they stand."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import get_args

from catalogue.calc.engine import Basis
from catalogue.queries import engine_catalogue, engine_type_choices
from quotes.calc.scope.replacement_ages import ReplacementAge, replacement_ages
from quotes.calc.shop import Shop
from quotes.queries.workshop import shop_rules

BASES: tuple[Basis, ...] = get_args(Basis)


@dataclass(frozen=True, slots=True)
class OnOneType:
    """One component on one engine type."""

    type_code: str
    type_name: str
    age: ReplacementAge


@dataclass(frozen=True, slots=True)
class OnOneBasis:
    """One component on every engine type that has it, on one basis."""

    basis: Basis
    rows: tuple[OnOneType, ...]


@dataclass(frozen=True, slots=True)
class ComponentAges:
    """All that is said of one component; nothing where it is never renewed for its age."""

    bases: tuple[OnOneBasis, ...]
    shop: Shop


def ages_of_component(code: str, on: date) -> ComponentAges:
    """The ages of one component, basis by basis."""
    shop, types = shop_rules(on), engine_type_choices()
    found = []
    for basis in BASES:
        rows = (
            OnOneType(type_code, name, age)
            for type_code, name in types
            for age in replacement_ages(engine_catalogue(type_code), shop, basis, on, {code})
        )
        if listed := tuple(rows):
            found.append(OnOneBasis(basis, listed))
    return ComponentAges(tuple(found), shop)


def ages_of_type(type_code: str, basis: Basis, on: date) -> tuple[ReplacementAge, ...]:
    """Every component of an engine type, where habit and arithmetic differ most at the top."""
    found = replacement_ages(engine_catalogue(type_code), shop_rules(on), basis, on)
    return tuple(sorted(found, key=lambda one: (-one.apart, one.name)))
