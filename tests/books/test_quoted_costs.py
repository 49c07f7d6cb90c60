"""What a build was quoted to take: its option, the extras ticked with it, the extra work agreed."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from quotes.calc.sheet.line_values import RenewalCost
from quotes.models import Acceptance, ExtraWork, WorkedAgain
from quotes.queries.books.quoted_costs import Takes, quoted_takes
from tests.bench import cast as bench_cast
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import books
from tests.quotes import cast as quotes_cast


@pytest.mark.django_db
def test_extras_ticked_and_work_worked_out_again_bring_their_quoted_cost() -> None:
    cast.vat_shop()
    build = with_an_extra()
    lines = [(line.kind, line.cost or 0) for line in cast.comparison().option("mild").lines]
    parts, machine_work = (sum(cost for kind, cost in lines if kind == of) for of in ("part", "machine_work"))
    at_the_yes = Takes(build.hours + 3, parts + Decimal(80), machine_work + Decimal(25))
    assert quoted_takes([build.pk]) == {build.pk: at_the_yes}

    cast.extra_work(build, accepted=False, words="Declined")
    worked_again(build, cast.extra_work(build))

    more = Takes(Decimal("1.5"), Decimal(40), Decimal(-25))
    assert quoted_takes([build.pk]) == {build.pk: at_the_yes + more}


def with_an_extra() -> Acceptance:
    """A yes with a ticked extra: parts of 80, machine work of 25, three hours."""
    whole = cast.comparison()
    option = whole.option("mild")
    code, risk = next(iter(option.offered.items()))
    takes = RenewalCost(parts=Decimal(80), machine_work=Decimal(25), hours=Decimal(3))
    mild = option.model_copy(update={"offered": {code: risk.model_copy(update={"takes": takes})}})
    compared = whole.model_copy(update={"options": (mild,)})
    quote = quotes_cast.draft(quotes_cast.engine(quotes_cast.customer()))
    revision = quotes_cast.issued(quote, comparison=compared, papers=False)
    return quotes_cast.accepted(revision, extras=(code,), papers=False)


def worked_again(build: Acceptance, extra: ExtraWork) -> None:
    """A working after the teardown: a part of 40 more, machine work of 25 less."""

    def option(*lines: tuple[str, str]) -> dict[str, Any]:
        return {"lines": [{"kind": kind, "cost": cost} for kind, cost in (*lines, ("labour", None))]}

    WorkedAgain.objects.create(
        job=bench_cast.job(quote=build.quote),
        build=build,
        request={},
        option={"base": option(("machine_work", "25")), "new": option(("part", "40"))},
        made_at=NOW,
        by=books(),
        extra_work=extra,
    )
