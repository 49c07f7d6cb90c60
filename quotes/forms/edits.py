"""What the worksheet's hand does to a request: each edit gives a new, checked request and changes nothing."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from quotes.calc.ask.request import Edits, LineChange, OwnLine, Refusal, Request


def edits_of(request: Request, tier: str) -> Edits:
    """What has been changed by hand on one option."""
    return request.edits.get(tier, Edits())


def take_in(request: Request, tier: str, component: str) -> Request:
    """Renew a component in one option; a refusal that no option needs any more goes with it."""
    edits = edits_of(request, tier)
    changed = _edited(
        request, tier, include=_with(edits.include, component), leave=_without(edits.leave, component)
    )
    still_left = {code for each in changed.edits.values() for code in each.leave} | set(changed.leave)
    kept = [refusal for refusal in changed.refusals if refusal.component in still_left]
    return _checked(changed, refusals=[refusal.model_dump() for refusal in kept])


def leave(request: Request, tier: str, component: str) -> Request:
    """Leave a component as it is in one option."""
    edits = edits_of(request, tier)
    return _edited(
        request, tier, include=_without(edits.include, component), leave=_with(edits.leave, component)
    )


def refuse(request: Request, tier: str, refusal: Refusal) -> Request:
    """Leave a component that must be renewed, because the customer has signed for it."""
    others = [each for each in request.refusals if each.component != refusal.component]
    signed = _checked(request, refusals=[each.model_dump() for each in (*others, refusal)])
    return leave(signed, tier, refusal.component)


def change_line(request: Request, tier: str, key: str, change: LineChange | None) -> Request:
    """Set a line's quantity or price by hand; None gives it back to the sums."""
    lines = {name: each for name, each in edits_of(request, tier).lines.items() if name != key}
    if change is not None:
        lines[key] = change
    return _edited(request, tier, lines={name: each.model_dump() for name, each in lines.items()})


def add_own_line(request: Request, tier: str, line: OwnLine) -> Request:
    """One line of the desk's own at the end."""
    return _own_lines(request, tier, (*edits_of(request, tier).own_lines, line))


def drop_own_line(request: Request, tier: str, index: int) -> Request:
    """Without one of the desk's own lines; an index that is not there changes nothing."""
    lines = edits_of(request, tier).own_lines
    return _own_lines(request, tier, (line for at, line in enumerate(lines) if at != index))


def discount(request: Request, tier: str, per_cent: Any, reason: str) -> Request:
    """A share off the whole option, with its reason."""
    return _edited(request, tier, discount_pct=per_cent, discount_reason=reason)


def _own_lines(request: Request, tier: str, lines: Iterable[OwnLine]) -> Request:
    return _edited(request, tier, own_lines=[line.model_dump() for line in lines])


def _edited(request: Request, tier: str, **changes: Any) -> Request:
    edits = {name: each.model_dump() for name, each in request.edits.items()}
    edits[tier] = edits_of(request, tier).model_dump() | changes
    return _checked(request, edits=edits)


def _checked(request: Request, **changes: Any) -> Request:
    """A copy whose changed values have passed the request's own rules."""
    return Request.model_validate(request.model_dump() | changes)


def _with(codes: tuple[str, ...], code: str) -> list[str]:
    return [*(each for each in codes if each != code), code]


def _without(codes: tuple[str, ...], code: str) -> list[str]:
    return [each for each in codes if each != code]
