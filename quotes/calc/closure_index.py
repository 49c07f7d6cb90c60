"""Closures as bit masks, for a search that weighs thousands of jobs: one bit for each operation.

The closure of a union is the union of the closures, so a job grows by `|`. Hours are bench hours; costs are
labour before tax in the shop's currency, not rounded (a quote rounds each line, so it may differ by cents).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.access import access_choices
from quotes.calc.request import Delivered
from quotes.calc.work_set import INCLUDED_THERE, brings, operation_of

NOTHING = Decimal(0)


class ClosureIndex:
    """Every operation of one engine type with its closure, for one way of delivery.

    `rates` (per hour, by kind of work) is needed by `cost` alone.
    """

    def __init__(
        self, catalogue: EngineCatalogue, delivered: Delivered, rates: Mapping[str, Decimal] | None = None
    ) -> None:
        self.catalogue = catalogue
        self.codes = tuple(catalogue.operations)
        self._bit = {code: 1 << place for place, code in enumerate(self.codes)}
        self._closed = {code: self._close(code, delivered) for code in self.codes}
        self._hours = [catalogue.operations[code].hours for code in self.codes]
        self._labour: list[Decimal] = []
        if rates is not None:
            self._labour = [one.hours * rates[one.kind] for one in catalogue.operations.values()]
        self._assembly = sum(bit for code, bit in self._bit.items() if catalogue.operations[code].is_assembly)
        self._costs: dict[int, Decimal] = {}

    def _close(self, code: str, delivered: Delivered) -> int:
        mask, waiting = 0, [code]
        while waiting:
            here = waiting.pop()
            operation_of(self.catalogue, here)
            if not mask & self._bit[here]:
                mask |= self._bit[here]
                waiting.extend(brings(self.catalogue, here, delivered))
        return mask

    def mask_of(self, wanted: Iterable[str]) -> int:
        """The closure of some operations. Raises UnknownOperationError."""
        mask = 0
        for code in wanted:
            operation_of(self.catalogue, code)
            mask |= self._closed[code]
        return mask

    def masks_for(self, component: str) -> tuple[int, ...]:
        """Of each way in to a component, the closure with the operations that go with renewing it."""
        place = self.catalogue.components[component]
        ways = access_choices(self.catalogue, component)
        return tuple(self.mask_of((*way, *place.with_operations)) for way in ways)

    def mask_for(self, component: str, have: int = 0) -> int:
        """The closure of renewing a component by the way in that adds the fewest hours to `have`."""
        return min(self.masks_for(component), key=lambda mask: self.hours(have | mask))

    def mask_for_machine_work(self, code: str) -> int:
        """The closure of what must be done before a machine work can be sent out."""
        return self.mask_of(self.catalogue.machine_work[code].needs_operations)

    def settled(self, mask: int) -> int:
        """The mask without the operations that are included in larger ones of it."""
        for one in INCLUDED_THERE:
            if mask & self._bit.get(one.larger, 0):
                mask &= ~self._bit.get(one.operation, 0)
        return mask

    def operations(self, mask: int) -> frozenset[str]:
        """The operations of a job; equal to `job_closure` of what the mask was made from."""
        return frozenset(self.codes[place] for place in _places(self.settled(mask)))

    def hours(self, mask: int) -> Decimal:
        return sum((self._hours[place] for place in _places(self.settled(mask))), NOTHING)

    def cost(self, mask: int) -> Decimal:
        """Labour of a job at the rates given. Raises ValueError where none were."""
        if len(self._labour) != len(self.codes):
            raise ValueError("a ClosureIndex without labour rates can't tell a cost")
        if mask not in self._costs:
            places = _places(self.settled(mask))
            self._costs[mask] = sum((self._labour[place] for place in places), NOTHING)
        return self._costs[mask]

    def assembly_operations(self, mask: int) -> int:
        """How many operations of a job put something together: each may go wrong."""
        return (self.settled(mask) & self._assembly).bit_count()


def _places(mask: int) -> list[int]:
    """The places of the bits that are set, lowest first."""
    places = []
    while mask:
        lowest = mask & -mask
        places.append(lowest.bit_length() - 1)
        mask ^= lowest
    return places
