"""Turns the prices of a catalogue into another currency."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.money import round_half_up
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.kinds import MoneyBand
from catalogue.calc.rows.trade import PartRow
from catalogue.calc.rows.work import MachineWorkRow


def converted(rows: CatalogueRows, currency: str, rate: Decimal) -> CatalogueRows:
    """The same catalogue in `currency`: every price times `rate`, to the cent.

    Habits of the trade and facts keep the currency in which they were written, and say so.
    """
    if currency == rows.currency and rate == 1:
        return rows
    return rows.model_copy(
        update={
            "basis": rows.basis.model_copy(update={"currency": currency}),
            "parts": tuple(_part(row, rate) for row in rows.parts),
            "machine_work": tuple(_work(row, rate) for row in rows.machine_work),
        }
    )


def _part(row: PartRow, rate: Decimal) -> PartRow:
    offers = tuple(
        offer.model_copy(update={"cost": round_half_up(offer.cost * rate)}) for offer in row.offers
    )
    return row.model_copy(update={"list_price": round_half_up(row.list_price * rate), "offers": offers})


def _work(row: MachineWorkRow, rate: Decimal) -> MachineWorkRow:
    band = MoneyBand(
        typical=round_half_up(row.cost.typical * rate),
        low=round_half_up(row.cost.low * rate),
        high=round_half_up(row.cost.high * rate),
    )
    return row.model_copy(update={"cost": band})
