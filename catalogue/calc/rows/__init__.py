"""The whole catalogue as checked rows, the same from the files that ship and from the database.

Every row says by `code` what it is; maps keyed by engine type hold what differs between the types.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, StringConstraints

from catalogue.calc.engine import Basis, ConsequenceClass
from catalogue.calc.rows.engines import DutyRow, EngineTypeRow, LoadLawRow, TierRow
from catalogue.calc.rows.kinds import Code, Positive, Row, Share, Text
from catalogue.calc.rows.trade import FactRow, PartRow, PolicyRow, SourceRow, SupplierRow
from catalogue.calc.rows.wear import ComponentRow, EventRow, FindingRow, LimitRow
from catalogue.calc.rows.work import MachineWorkRow, OperationRow


class BasisRow(Row):
    """What all components rest on, unless they say otherwise."""

    code: Code = "basis"
    currency: Annotated[str, StringConstraints(pattern=r"^[A-Z]{3}$")]
    life_quantile: dict[Basis, Annotated[float, Field(gt=0, lt=1)]]
    evidence_r0: Positive
    stopping_share_by_class: dict[ConsequenceClass, Share]
    sources: dict[Code, Text] = {}


class CatalogueRows(Row):
    """The catalogue: every row of every kind, in the order in which it is read."""

    basis: BasisRow
    sources: tuple[SourceRow, ...]
    suppliers: tuple[SupplierRow, ...]
    engine_types: tuple[EngineTypeRow, ...]
    components: tuple[ComponentRow, ...]
    operations: tuple[OperationRow, ...]
    machine_work: tuple[MachineWorkRow, ...]
    parts: tuple[PartRow, ...]
    tiers: tuple[TierRow, ...]
    load_laws: tuple[LoadLawRow, ...]
    duties: tuple[DutyRow, ...]
    findings: tuple[FindingRow, ...]
    events: tuple[EventRow, ...]
    limits: tuple[LimitRow, ...]
    facts: tuple[FactRow, ...] = ()
    policies: tuple[PolicyRow, ...] = ()
    version: str = ""

    @property
    def currency(self) -> str:
        """The currency that every price of the catalogue is in."""
        return self.basis.currency
