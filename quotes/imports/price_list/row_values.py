"""What the cells of one line say together: prices for one unit, packs, and what contradicts itself."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any

from catalogue.calc.money import round_half_up
from catalogue.calc.price_list.listed import Listed, number_key
from catalogue.calc.price_list.reading import Column, Reading
from catalogue.calc.price_list.standing import PLACES
from catalogue.calc.price_list.units import PACK, Unit, unit_in
from catalogue.calc.said import say, say_figure, to_say
from quotes.imports.cell_values import BadCell
from quotes.imports.price_list.counts import count_of, days_of
from quotes.imports.price_list.gtins import gtin_of
from quotes.imports.price_list.limits import Raw
from quotes.imports.price_list.prices import price_reader, sign_fits
from quotes.imports.price_list.texts import LONGEST_NAME, number_of, successor_of, text_reader

LONGEST_UNIT = 40
Values = dict[str, Any]
NAMES: dict[Column, str] = {
    "number": to_say("Part number"),
    "name": to_say("Name"),
    "cost": to_say("Your price"),
    "list_price": to_say("List price"),
    "gtin": to_say("GTIN"),
    "unit": to_say("Unit"),
    "pack": to_say("In a pack"),
    "priced_for": to_say("Price is for"),
    "lead_days": to_say("Days until it is here"),
    "superseded_by": to_say("Replaced by"),
    "currency": to_say("Currency"),
}
"""What each column is called on the pages, in the order in which they are chosen."""


class BadRow(Exception):
    """Cells that are sound each, but not together: the column, what it says, why not, what is allowed."""

    def __init__(self, column: Column, value: str, reason: str, allowed: str) -> None:
        self.column, self.value, self.reason, self.allowed = column, value, reason, allowed
        super().__init__(reason)


def readers(reading: Reading) -> Mapping[Column, Callable[[Raw], Any]]:
    """What reads the cells of each column."""
    price = price_reader(reading.decimal_mark, reading.currency)
    unit = text_reader(LONGEST_UNIT)
    return {
        "number": number_of,
        "name": text_reader(LONGEST_NAME),
        "cost": price,
        "list_price": price,
        "gtin": gtin_of,
        "unit": lambda raw: unit_in(unit(raw)),
        "pack": count_of,
        "priced_for": count_of,
        "lead_days": days_of,
        "superseded_by": successor_of,
        "currency": _currency_reader(reading.currency),
    }


def converts(reading: Reading) -> bool:
    """Whether a price may be for anything but one unit."""
    more = ("unit", "pack", "priced_for", "currency")
    return reading.priced_by_pack or reading.priced_for > 1 or any(one in reading.columns for one in more)


def convert(values: Values, reading: Reading) -> None:
    """Bring prices to one unit. BadRow where next to nothing is left of one."""
    values.pop("currency", None)
    unit: Unit = values.get("unit") or Unit("")
    pack = values.get("pack") or unit.pack
    count = values.pop("priced_for", 0) or unit.priced_for
    if count == 1 and pack > 1 and (reading.priced_by_pack or unit.name == PACK):
        count = pack
    if unit.name == PACK and pack > 1:
        unit = Unit("each")
    if count == 1:
        count = reading.priced_for
    values["unit"], values["pack"] = unit.name, pack
    if count > 1:
        for column in ("cost", "list_price"):
            if column in values:
                values[column] = _shared(values[column], count, column)


def listed(values: Values) -> Listed:
    """The row."""
    if not values.get("name"):
        values["name"] = ""
    by = values.get("superseded_by")
    if by and number_key(by) == number_key(values["number"]):
        del values["superseded_by"]
    return Listed(**values)


def _shared(price: Decimal, count: int, column: Column) -> Decimal:
    one = round_half_up(price / count, PLACES)
    if one == 0:
        raise BadRow(
            column,
            _figure(price),
            say("is next to nothing for one of {count}", count=say_figure(count, 0)),
            say("at least {least} for one", least=_figure(Decimal(1).scaleb(-PLACES))),
        )
    return one


def _figure(amount: Decimal) -> str:
    decimals = amount.as_tuple().exponent
    return say_figure(amount, max(2, -decimals if isinstance(decimals, int) else 2))


def _currency_reader(currency: str) -> Callable[[Raw], str]:
    text = text_reader(LONGEST_UNIT)

    def read(raw: Raw) -> str:
        said = text(raw).upper()
        if currency and said and not sign_fits(said, currency):
            raise BadCell(
                say("is another currency than the list's"), say("{currency}, or nothing", currency=currency)
            )
        return said

    return read
