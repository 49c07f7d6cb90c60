"""Two price lists for a demo: one in force, of what no quote takes, and one that waits for the owner."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.utils import timezone

from catalogue.actions.price_list.checking import check_list
from catalogue.actions.price_list.handing_in import hand_in, keep_reading
from catalogue.actions.price_list.taking import take_list
from catalogue.calc.money import round_half_up
from catalogue.calc.price_list.reading import Reading, ReadList
from catalogue.models import Offer, PriceList
from quotes.imports.price_list.read import read_price_list

SUPPLIER = "main_parts"
HEAD = "Part number,Description,Net price,List price,Replaced by"
READING = Reading(
    separator=",",
    decimal_mark=".",
    head_line=1,
    columns={"number": 0, "name": 1, "cost": 2, "list_price": 3, "superseded_by": 4},
)
SMALL_PARTS = (
    ("MW-1010", "Circlip 10 mm", "0.42"), ("MW-1014", "Circlip 14 mm", "0.48"),
    ("MW-1200", "Clutch thrust washer", "3.90"), ("MW-1311", "Copper washer 12 mm", "0.18"),
    ("MW-1415", "Oil seal 25 x 38 x 7", "4.60"), ("MW-1416", "Oil seal 30 x 42 x 7", "4.95"),
    ("MW-1502", "Dowel 8 x 14", "1.15"), ("MW-1720", "Spring clip 12 mm", "0.35"),
    ("MW-1803", "O-ring 18 x 2.5", "0.55"), ("MW-1804", "O-ring 24 x 2.5", "0.62"),
    ("MW-2001", "Woodruff key 4 x 5", "1.80"), ("MW-2210", "Stud M8 x 45", "2.25"),
)  # fmt: skip
OFFERED = 8
"""So many of the catalogue's own parts stand on the second list; one of them jumps."""
DEARER, JUMP = Decimal("1.05"), Decimal("1.4")


def write_demo_prices(*, now: datetime) -> None:
    """Hand both in, and take in the first; nothing where a list was handed in before."""
    if PriceList.objects.exists():
        return
    desk, owner = (User.objects.get(username=name) for name in ("desk", "owner"))
    first, given = _checked("small-parts-autumn.csv", _first(), desk, now)
    take_list(pk=first.pk, given=given, by=owner, on=timezone.localdate(now), now=now)
    _checked("spring-list.csv", _second(), desk, now)


def _first() -> list[str]:
    return [f"{number},{name},{cost}," for number, name, cost in SMALL_PARTS]


def _second() -> list[str]:
    """All a little dearer, one superseded, one jump, and a row whose list price is below its cost."""
    rows = [f"{number},{name},{round_half_up(Decimal(cost) * DEARER)}," for number, name, cost in SMALL_PARTS]
    rows[1] += ",MW-1015"
    rows += ["MW-1015,Circlip 14 mm black,0.51,", "MW-2300,Lock plate,2.40,1.90"]
    offers = Offer.objects.filter(supplier=SUPPLIER).select_related("part").order_by("part__place")
    for place, offer in enumerate(offers[:OFFERED]):
        factor = DEARER if place else JUMP
        cost, list_price = (
            round_half_up(Decimal(str(amount)) * factor) for amount in (offer.cost, offer.part.list_price)
        )
        rows.append(f'{offer.part_id},"{offer.part.name}",{cost},{list_price}')
    return rows


def _checked(name: str, rows: list[str], by: User, now: datetime) -> tuple[PriceList, ReadList]:
    content = "\n".join([HEAD, *rows]).encode()
    row = hand_in(supplier=SUPPLIER, name=name, content=content, by=by, now=now)
    keep_reading(pk=row.pk, reading=READING.model_dump(mode="json"))
    given = read_price_list(content, name, READING)
    return check_list(pk=row.pk, given=given, on=timezone.localdate(now), now=now), given
