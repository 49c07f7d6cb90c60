"""An engine that we built comes back: its card holds what was changed at its own interval as well."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from quotes.calc.ask.request import EngineAsked, Renewal, Segment
from quotes.forms.card import Card
from quotes.forms.filling import blank_data, engine_data
from quotes.forms.offered import offered_from
from tests.cast import shipped

CHANGED = ("engine_oil", "oil_filter", "spark_plug", "piston")


def test_oil_filter_and_plugs_of_the_last_build_stay_on_the_card() -> None:
    catalogue = shipped("four600")
    offered = offered_from([("four600", "600 four")], catalogue, type_chosen=True)
    renewed = {code: Renewal(at=Decimal(2300), unit="mi") for code in CHANGED}
    ran = Segment(amount=Decimal(2300), unit="mi", duty="sprint", tier="refresh")
    data = blank_data(offered) | engine_data(EngineAsked(type="four600", history=(ran,), renewed=renewed))
    chosen = "planned-duty"

    card = Card(data | {chosen: "sprint"}, offered)
    answer = card.answer(date(2026, 11, 28))

    assert not card.has_faults
    assert answer.request is not None
    assert set(answer.request.engine.renewed) == set(CHANGED)
    for row in card.renewed:
        assert f'value="{row.typed("component")}" selected' in str(row["component"])
        assert "engine_oil" not in str(row["component"]) or row.typed("component") == "engine_oil"
