"""Parts are found as one types, on both databases."""

from __future__ import annotations

from datetime import UTC, date, datetime
from decimal import Decimal

import pytest
from django.db import connection

from catalogue.actions.price_list.rows import write_listed
from catalogue.calc.price_list.listed import Listed
from catalogue.calc.price_list.standing import as_listed
from catalogue.calc.sought_parts import sought_parts
from catalogue.models import ListedPart, ListState, Part, PriceList, Supplier
from catalogue.queries.part_search import MOST_LISTED, find_parts, knows_trigrams

pytestmark = pytest.mark.django_db
SPRING, OLD, RING, GASKET = "VS-10423/0A", "VS-10400", "PR 66.00", "ÖD-7"


def listed(*articles: Listed) -> None:
    """What one supplier lists, taken in."""
    supplier = Supplier.objects.order_by("pk").first()
    assert supplier is not None
    held = PriceList.objects.create(
        supplier=supplier,
        name="spring.csv",
        sha256="0" * 64,
        state=ListState.IN_FORCE,
        in_force_from=date(2026, 11, 1),
        handed_in_at=datetime(2026, 11, 1, tzinfo=UTC),
        applied_at=datetime(2026, 11, 1, tzinfo=UTC),
    )
    rows = [(held.pk, as_listed(one, one.key, "USD", None)) for one in articles]
    write_listed(supplier.pk, rows, lambda done, of: None)


@pytest.fixture(autouse=True)
def four_articles() -> None:
    listed(
        Listed(1, SPRING, "Valve spring, inlet, hardened", Decimal("4.10")),
        Listed(2, OLD, "Valve spring, inlet", Decimal("4.00"), superseded_by=SPRING),
        Listed(3, RING, "Piston ring set, 66.00 mm", Decimal("21.50")),
        Listed(4, GASKET, "Kopfdichtung für Zylinder", Decimal("8.00")),
    )


def found(typed: str) -> list[str]:
    """What bears it as it was typed."""
    parts = find_parts(sought_parts(typed))
    return [] if parts.forgiven else [one.number for one in parts.listed]


@pytest.mark.parametrize(
    ("typed", "numbers"),
    [
        ("vs-10423/0a", [SPRING]),
        ("VS104230A", [SPRING]),
        ("vs 104", [OLD, SPRING]),
        ("spring valve", [OLD, SPRING]),
        ("hard inlet", [SPRING]),
        ("66 ring", [RING]),
        ("od7", [GASKET]),
        ("FUR kopf", [GASKET]),
        ("spring 66", []),
        ("v", []),
    ],
)
def test_by_number_or_words_in_any_order(typed: str, numbers: list[str]) -> None:
    assert sorted(found(typed)) == sorted(numbers)


def test_an_old_number_is_found_and_says_what_took_its_place() -> None:
    [one] = find_parts(sought_parts(OLD)).listed
    assert one.superseded_by == SPRING


def test_a_part_of_the_catalogue_stands_in_the_same_list() -> None:
    part = Part.objects.order_by("pk").first()
    assert part is not None
    assert part in find_parts(sought_parts(part.pk)).parts


def test_of_one_supplier_alone() -> None:
    supplier = ListedPart.objects.values_list("supplier", flat=True).first() or ""
    other = Supplier.objects.exclude(pk=supplier).values_list("pk", flat=True).first() or ""
    assert find_parts(sought_parts("valve"), supplier).many == 2
    assert not find_parts(sought_parts("valve"), other).any


def test_a_typing_error_is_forgiven_where_the_database_can() -> None:
    near = find_parts(sought_parts("spirng vavle"))
    if connection.vendor == "postgresql":
        assert knows_trigrams()
        assert near.forgiven
        assert {one.number for one in near.listed} == {SPRING, OLD}
    else:
        assert not near.any


def test_of_many_only_a_page_is_read() -> None:
    listed(*(Listed(line, f"W-{line:04}", "Washer", Decimal(1)) for line in range(1, 40)))
    washers = find_parts(sought_parts("washer"))
    assert (len(washers.listed), washers.more) == (MOST_LISTED, True)
