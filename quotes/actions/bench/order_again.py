"""A second article in the place of one that was spoilt here, at the shop's own cost."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.bench.order_writing import NewLine, arrives, write_order
from quotes.calc.bench.said import exact
from quotes.models import OrderLine, PurchaseOrder, Workshop
from quotes.queries.bench.parts.wanted import lines_of, offers_now
from quotes.queries.workshop import closed_days

AGAIN = "again:"
"""Before the key of the accepted line: a second one that no customer pays for."""


@transaction.atomic
def order_again(
    *, line: OrderLine, quantity: Decimal, why: str, key: UUID, by: User, now: datetime
) -> PurchaseOrder:
    """Order one more of what was spoilt here: it is the shop's cost, and no accepted line pays for it.

    ValidationError where it is not said why, or more are asked for than came. The same key again gives the
    order that was made.
    """
    if made := PurchaseOrder.objects.filter(lines__line_key=f"{AGAIN}{key.hex}").first():
        return made
    ((row, stands),) = lines_of(OrderLine.objects.filter(pk=line.pk))
    _refuse(quantity, why, came=stands.of("received"))
    on = timezone.localdate(now)
    offer = offers_now().get((row.order.supplier_name, row.part_number))
    closed = closed_days(Workshop.objects.get_or_default(), on)
    expected_on, slow_on = arrives(offer, on, closed) if offer else (None, None)
    spare = NewLine(
        build=row.build,
        part_number=row.part_number,
        description=row.description,
        unit=row.unit,
        quantity=quantity,
        unit_cost=offer.cost if offer else row.unit_cost,
        expected_on=expected_on,
        slow_on=slow_on,
        component=row.component,
        grade=row.grade,
        size=row.size,
        line_key=f"{AGAIN}{key.hex}",
        reading_id=row.reading_id,
    )
    return write_order(row.order.supplier, row.order.supplier_name, [spare], None, "", by, now)


def _refuse(quantity: Decimal, why: str, *, came: Decimal) -> None:
    if not why.strip():
        raise ValidationError({"why": say("Nothing is given: say what happened to the first one.")})
    if not ZERO < quantity <= came:
        wrong = say(
            "{quantity} is not between 1 and {of}, as many as came.", quantity=exact(quantity), of=exact(came)
        )
        raise ValidationError({"quantity": wrong})
