"""Tax opens to its base, its rate and the rounding, whatever the lines."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.ask.request import Edits, OwnLine
from quotes.calc.money.pricing import Pricing
from quotes.calc.origin.tax import tax, taxes
from tests.calc.origin.cases import tier


@settings(max_examples=30, deadline=None)
@given(st.lists(st.decimals("0.01", "900", places=2), min_size=1, max_size=5))
def test_tax_on_any_lines_comes_to_its_base_times_its_rate_rounded_once(nets: list[Decimal]) -> None:
    """With two taxes on one base what rounding leaves over goes to the first."""
    own = tuple(
        OwnLine(description=f"Line {place}", quantity=Decimal(1), unit_price=net)
        for place, net in enumerate(nets)
    )
    first = tier("motocross single", "refresh").first
    request = first.case.request.model_copy(update={"edits": {"refresh": Edits(own_lines=own)}})
    case = replace(first.case, request=request)
    pricing = Pricing(case)
    job = replace(first, case=case, pricing=pricing, sums=pricing.totals(first.plan))
    for figure in taxes(job):
        assert figure.added_up() == figure.exact
    for group in job.sums.groups:
        shares = [tax(job, f"{group.code}:{place}") for place in range(1, len(group.components) + 1)]
        assert [share.added_up() for share in shares] == [each[2] for each in group.components]
