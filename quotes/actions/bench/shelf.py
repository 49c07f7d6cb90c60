"""What a build takes from the shelf and puts back, never more than it wants or has taken."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.books.build_costs import use_stock
from quotes.calc.bench.parts.pieces import plain
from quotes.models import Acceptance, StockUse
from quotes.queries.bench.parts.wanted import BuildParts, build_parts


@transaction.atomic
def from_shelf(
    *,
    parts: BuildParts,
    component: str,
    quantity: Decimal,
    cost: Decimal,
    on: date,
    by: User,
    now: datetime,
) -> StockUse:
    """Take pieces of a component from the shelf for a build; below nought they go back.

    ValidationError where more are taken than are still to be ordered, so that a second press takes nothing,
    or more go back than were taken.
    """
    list(Acceptance.objects.select_for_update(of=("self",)).filter(pk=parts.build.pk).values_list("pk"))
    read = build_parts(parts.build, on) or parts
    needs = [need for need in read.needs if need.pick.component == component]
    wanted = sum((need.to_order for need in needs), ZERO)
    rows = StockUse.objects.filter(build=parts.build, component=component)
    taken = sum(rows.values_list("quantity", flat=True), ZERO)
    _refuse_quantity(quantity, wanted, taken)
    name = needs[0].pick.description if needs else parts.catalogue.components[component].name
    return use_stock(
        build=parts.build,
        description=name[:200],
        component=component,
        quantity=quantity,
        cost=cost,
        on=on,
        by=by,
        now=now,
    )


def _refuse_quantity(quantity: Decimal, wanted: Decimal, taken: Decimal) -> None:
    said = ""
    if quantity > wanted:
        said = say(
            "{quantity} is more than the build still wants of it: {wanted}.",
            quantity=plain(quantity),
            wanted=plain(wanted),
        )
    elif -quantity > taken:
        said = say(
            "{quantity} can't go back: {taken} were taken.", quantity=plain(-quantity), taken=plain(taken)
        )
    if said:
        raise ValidationError({"quantity": said})
