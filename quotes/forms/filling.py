"""Fills a card from what is known: nothing yet, a request that is kept, or an engine's own record."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from quotes.calc.ask.request import EngineAsked, Observed, Request
from quotes.calc.sheet.words import OUT_OF
from quotes.forms.card_parts import AimPart, PastPart
from quotes.forms.fields import figure_shown
from quotes.forms.offered import Offered

Data = dict[str, str]


def blank_data(offered: Offered) -> Data:
    """A card that nothing has been written on."""
    row = {"history-0-unit": offered.unit, "renewed-0-unit": offered.unit, "seen-0-id": ""}
    return row | {
        "past": PastPart.KNOWN,
        "planned-unit": offered.unit,
        "readings-0-component": "",
        "delivered": "loose",
    }


def request_data(request: Request, offered: Offered) -> Data:
    """A card as it must have stood to ask for this request."""
    told = request.model_dump(exclude_none=True)
    data = blank_data(offered) | engine_data(request.engine)
    data |= _prefixed("planned", told["planned"])
    observed = [*request.findings, *request.events]
    data |= _rows("seen", (_observed(each) for each in observed))
    data |= _rows("readings", told.get("readings", ()))
    data |= {name: written(told[name]) for name in ("budget", "loss", "class_code") if name in told}
    data["planned-checks"] = request.checks
    data |= {name: "on" for name in ("refresh_list", "stripped") if told.get(name)}
    return data | _aim(request.target)


def engine_data(engine: EngineAsked) -> Data:
    """The engine's part of the card."""
    told = engine.model_dump(exclude_none=True)
    past = PastPart.UNKNOWN if engine.history is None else PastPart.KNOWN if engine.history else PastPart.NEW
    renewed = ({"component": code} | renewal for code, renewal in told["renewed"].items())
    return {
        "type": engine.type,
        "delivered": engine.delivered,
        "fitted": engine.fitted or "",
        "past": past,
        **_rows("history", told.get("history", ())),
        **_rows("renewed", renewed),
    }


def _aim(target: Decimal | None) -> Data:
    """Out of twenty where the aim is whole in twentieths, else in per cent."""
    if target is None:
        return {}
    twentieths = target * OUT_OF
    if twentieths == twentieths.to_integral_value():
        return {"aim": _plain(twentieths), "aim_as": AimPart.IN_TWENTY}
    return {"aim": _plain(target * 100), "aim_as": AimPart.PER_CENT}


def _observed(each: Observed | str) -> Mapping[str, Any]:
    return {"id": each} if isinstance(each, str) else each.model_dump(exclude_none=True)


def _rows(name: str, rows: Iterable[Mapping[str, Any]]) -> Data:
    data: Data = {}
    for index, row in enumerate(rows):
        data |= _prefixed(f"{name}-{index}", row)
    return data


def _prefixed(prefix: str, told: Mapping[str, Any]) -> Data:
    return {f"{prefix}-{key}": written(value) for key, value in told.items()}


def written(value: object) -> str:
    """A value as one would write it on the card: a number without noughts that say nothing."""
    return _plain(value) if isinstance(value, Decimal) else str(value)


def _plain(number: Decimal) -> str:
    return figure_shown(f"{number.normalize():f}")
