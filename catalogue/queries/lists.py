"""The lists of the catalogue's pages: each in a fixed number of queries, however long it is."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.db.models import (
    Case,
    Count,
    DecimalField,
    F,
    FloatField,
    OuterRef,
    QuerySet,
    Subquery,
    Value,
    When,
)
from django.db.models.functions import Coalesce

from catalogue.models import (
    Basis,
    Component,
    ComponentLife,
    Duty,
    EngineType,
    Event,
    Fact,
    Finding,
    Limit,
    LoadLaw,
    MachineWork,
    Offer,
    Operation,
    OperationHours,
    Part,
    Policy,
    Source,
    Supplier,
    Tier,
)


def parts() -> QuerySet[Part]:
    """Parts with the terms of their preferred offer, else of the cheapest."""
    best = Offer.objects.filter(part=OuterRef("pk")).order_by("-preferred", "cost", "supplier")
    return Part.objects.select_related("component", "engine_type").annotate(
        cost=Subquery(best.values("cost")[:1]),
        supplier=Subquery(best.values("supplier__name")[:1]),
        lead_typical=Subquery(best.values("lead_typical_days")[:1]),
        lead_slow=Subquery(best.values("lead_slow_days")[:1]),
    )


def components() -> QuerySet[Component]:
    """Components with their lives, and the stopping share that holds for them."""
    basis = Basis.objects.first()
    by_class = [
        When(consequence_class=name, then=Value(getattr(basis, f"stopping_share_{name}")))
        for name in ("session", "weekend", "engine")
        if basis
    ]
    return Component.objects.annotate(
        life_miles=_life("miles"),
        life_hours=_life("hours_mx"),
        stops=Coalesce("stopping_share", Case(*by_class, default=None, output_field=FloatField())),
    )


def _life(basis: str) -> Subquery:
    lives = ComponentLife.objects.filter(component=OuterRef("pk"), basis=basis)
    return Subquery(lives.values("typical")[:1])


def operations() -> QuerySet[Operation]:
    """Operations with their whole hours on each engine type, as `hours_1`, `hours_2`, ... in its order."""
    found = Operation.objects.all()
    for place, engine_type in enumerate(EngineType.objects.all(), start=1):
        fixed = OperationHours.objects.filter(operation=OuterRef("pk"), engine_type=engine_type)
        # `alias` would do if no page sorted by it.
        found = found.annotate(
            **{f"hours_{place}": Subquery(fixed.values("hours")[:1]) + _per_piece(engine_type.pieces)}
        )
    return found


def _per_piece(pieces: dict[str, int]) -> Any:
    hours = DecimalField(max_digits=12, decimal_places=4)
    counted = [When(per_piece_piece=piece, then=Value(count)) for piece, count in pieces.items()]
    each = Coalesce(F("per_piece_hours"), Value(Decimal(0)), output_field=hours)
    number = Case(*counted, default=Value(0), output_field=hours)
    return each * number


def machine_work() -> QuerySet[MachineWork]:
    return MachineWork.objects.select_related("vendor")


def tiers() -> QuerySet[Tier]:
    return Tier.objects.all()


def load_laws() -> QuerySet[LoadLaw]:
    return LoadLaw.objects.all()


def duties() -> QuerySet[Duty]:
    return Duty.objects.all()


def engine_types() -> QuerySet[EngineType]:
    return EngineType.objects.all()


def findings() -> QuerySet[Finding]:
    return Finding.objects.select_related("component", "opens")


def events() -> QuerySet[Event]:
    return Event.objects.select_related("same_as_finding")


def limits() -> QuerySet[Limit]:
    return Limit.objects.select_related("component")


def suppliers() -> QuerySet[Supplier]:
    """Suppliers with how many parts and kinds of machine work they offer."""
    return Supplier.objects.annotate(
        part_count=Count("offers", distinct=True), work_count=Count("machine_work", distinct=True)
    )


def sources() -> QuerySet[Source]:
    return Source.objects.all()


def facts() -> QuerySet[Fact]:
    return Fact.objects.all()


def policies() -> QuerySet[Policy]:
    return Policy.objects.all()


def counts() -> dict[str, int]:
    """How many entries there are of each kind that has a list."""
    found = {
        "parts": Part,
        "components": Component,
        "operations": Operation,
        "machine_work": MachineWork,
        "tiers": Tier,
        "load_laws": LoadLaw,
        "duties": Duty,
        "engine_types": EngineType,
        "findings": Finding,
        "events": Event,
        "limits": Limit,
        "suppliers": Supplier,
        "sources": Source,
        "facts": Fact,
        "policies": Policy,
    }
    return {kind: model._default_manager.count() for kind, model in found.items()}
