"""The rows of the catalogue."""

from catalogue.models.basis import Basis, CatalogueVersion
from catalogue.models.component import Component, ComponentLife, Measured
from catalogue.models.component_links import (
    Companion,
    ComponentOperation,
    ComponentWork,
    Reach,
)
from catalogue.models.duty import Duty
from catalogue.models.engine_type import EngineType
from catalogue.models.finding import Event, EventAsks, Finding, FindingAsks
from catalogue.models.history import Change, OwnValue
from catalogue.models.life_change import LifeChange
from catalogue.models.limit import Limit
from catalogue.models.load_law import LoadLaw
from catalogue.models.machine_work import MachineWork, WorkComponent, WorkNeeds
from catalogue.models.operation import (
    Consumption,
    Operation,
    OperationComponent,
    OperationHours,
    OperationLink,
)
from catalogue.models.part import Offer, Part
from catalogue.models.price_list import (
    ExchangeRate,
    HeldPrice,
    ListedPart,
    ListedPrice,
    ListState,
    ListTerms,
    PriceList,
)
from catalogue.models.sources import Fact, Policy, Source
from catalogue.models.supplier import Supplier
from catalogue.models.tier import Tier, TierChange, TierComponent, TierOperation, TierWork

__all__ = [
    "Basis",
    "CatalogueVersion",
    "Change",
    "Companion",
    "Component",
    "ComponentLife",
    "ComponentOperation",
    "ComponentWork",
    "Consumption",
    "Duty",
    "EngineType",
    "Event",
    "EventAsks",
    "ExchangeRate",
    "Fact",
    "Finding",
    "FindingAsks",
    "HeldPrice",
    "LifeChange",
    "Limit",
    "ListState",
    "ListTerms",
    "ListedPart",
    "ListedPrice",
    "LoadLaw",
    "MachineWork",
    "Measured",
    "Offer",
    "Operation",
    "OperationComponent",
    "OperationHours",
    "OperationLink",
    "OwnValue",
    "Part",
    "Policy",
    "PriceList",
    "Reach",
    "Source",
    "Supplier",
    "Tier",
    "TierChange",
    "TierComponent",
    "TierOperation",
    "TierWork",
    "WorkComponent",
    "WorkNeeds",
]
