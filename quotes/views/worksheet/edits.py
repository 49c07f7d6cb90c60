"""Reads one edit of the worksheet from what was posted and makes the request that it leads to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from django.http import QueryDict

from catalogue.calc.said import say
from quotes.calc.ask.request import Request
from quotes.calc.sheet.line_values import Reason
from quotes.calc.sheet.values import Option
from quotes.forms import edits
from quotes.forms.bought import filled_in
from quotes.forms.hand import DiscountForm, HandForm, LineForm, OwnLineForm, RefusalForm
from quotes.queries.listed_line import listed_line
from quotes.views.worksheet.sheet import hold_of


@dataclass(slots=True)
class Edited:
    """The request after the edit; None where it was refused, with why, or with the form that has faults.

    Beside faults it may stand as well: the boxes that were ticked are kept, whatever else was pressed.
    """

    request: Request | None = None
    applied: str = ""
    """The form whose values are in the request now."""
    left: tuple[str, ...] = ()
    """Components that are to stay as they are from now on."""
    refused: str = ""
    forms: dict[str, HandForm] = field(default_factory=dict)


Edit = Callable[[QueryDict, Request, Option, bool], Edited]


def edited(posted: QueryDict, asked: Request, option: Option, *, refuses_unsafe: bool) -> Edited:
    """The boxes as they are ticked, and the edit that the pressed button names, if one was pressed.

    A box may be ticked and a button pressed before the box was sent for itself: neither is lost.
    """
    boxes = _boxes(posted, asked, option, refuses_unsafe)
    pressed = next((name for name in ROW_EDITS if name in posted), posted.get("do", ""))
    edit = (ROW_EDITS | EDITS).get(pressed)
    if edit is None or boxes.request is None:
        return boxes
    made = edit(posted, boxes.request, option, refuses_unsafe)
    if made.request is None and boxes.request is not asked:
        made.request = boxes.request
    made.left = (*boxes.left, *made.left)
    return made


def _boxes(posted: QueryDict, asked: Request, option: Option, refuses_unsafe: bool) -> Edited:
    """Take in what has been ticked and leave what no longer is; only boxes that were shown count."""
    ticked, tier = set(posted.getlist("in")), option.tier
    is_in = option.renewed.keys() | option.reconditioned.keys()
    by_hand = set(edits.edits_of(asked, tier).leave)
    known = is_in | option.offered.keys() | option.left.keys() | by_hand
    left: list[str] = []
    for code in dict.fromkeys(posted.getlist("shown")):
        if code not in known or (code in ticked) == (code in is_in):
            continue
        if code in ticked:
            asked = edits.take_in(asked, tier, code)
            continue
        hold = hold_of(option, code, refuses_unsafe=refuses_unsafe)
        if hold != "free":
            return Edited(refused=_held(option, code, hold))
        asked = edits.leave(asked, tier, code)
        left.append(code)
    return Edited(asked, left=tuple(left))


def goes_with(option: Option, left: tuple[str, ...]) -> str:
    """Why a line can't be left by itself, or nothing: what brought it along is not left with it."""
    whys = [option.renewed.get(code) or option.reconditioned.get(code) for code in left]
    going = {why.name for why in whys if why}
    for why in whys:
        if why and why.code in {"companion", "comes_with"} and not going & set(why.chain[:-1]):
            return _not_alone(why)
    return ""


def _not_alone(why: Reason) -> str:
    return say(
        "{part} can't be left alone. {because} Leave that as well, or keep both.",
        part=why.name,
        because=why.sentence,
    )


def still_in(option: Option, left: tuple[str, ...]) -> str:
    """Why what was to be left is in all the same: something else that stays in brings it along."""
    for code in left:
        if why := option.renewed.get(code) or option.reconditioned.get(code):
            return _not_alone(why)
    return ""


def _held(option: Option, code: str, hold: str) -> str:
    name = (option.renewed.get(code) or option.reconditioned[code]).name
    if hold == "never":
        return say(
            "{part}: can lock the rear wheel or put oil on the tyre, and the owner has set that we do not "
            "build it without.",
            part=name,
        )
    return say(
        "{part} must be done. Leaving it needs the customer's signed word: press “leave, signed” in its row.",
        part=name,
    )


def _refuse(posted: QueryDict, asked: Request, option: Option, refuses_unsafe: bool) -> Edited:
    code = posted.get("refuse", "")
    hold = hold_of(option, code, refuses_unsafe=refuses_unsafe)
    if hold == "none":
        refused = say("“{part}” is not in this option: there is nothing to leave.", part=code[:64])
        return Edited(refused=refused)
    if hold == "never":
        return Edited(refused=_held(option, code, hold))
    form = RefusalForm(posted)
    signed = form.refusal(code)
    if signed is None:
        return Edited(forms={"refusal_form": form})
    return Edited(edits.refuse(asked, option.tier, signed), "refusal_form", (code,))


def _change(posted: QueryDict, asked: Request, option: Option, refuses_unsafe: bool) -> Edited:
    key = posted.get("line", "")
    if key not in {line.key for line in option.lines}:
        return Edited(refused=say("“{line}” is not a line of this option.", line=key[:64]))
    form = LineForm(posted)
    change = form.change()
    if change is None:
        return Edited(forms={"line_form": form})
    return Edited(edits.change_line(asked, option.tier, key, change), "line_form")


def _give_back(posted: QueryDict, asked: Request, option: Option, refuses_unsafe: bool) -> Edited:
    return Edited(edits.change_line(asked, option.tier, posted.get("line", ""), None), "line_form")


def _own_line(posted: QueryDict, asked: Request, option: Option, refuses_unsafe: bool) -> Edited:
    form = OwnLineForm(posted)
    line = form.line()
    if line is None:
        return Edited(forms={"own_form": form})
    return Edited(edits.add_own_line(asked, option.tier, line), "own_form")


def _drop_own(posted: QueryDict, asked: Request, option: Option, refuses_unsafe: bool) -> Edited:
    index = posted.get("drop-own", "")
    return Edited(edits.drop_own_line(asked, option.tier, int(index) if index.isdecimal() else -1))


def _discount(posted: QueryDict, asked: Request, option: Option, refuses_unsafe: bool) -> Edited:
    form = DiscountForm(posted)
    made = form.edits()
    if made is None:
        return Edited(forms={"discount_form": form})
    changed = edits.discount(asked, option.tier, made.discount_pct, made.discount_reason)
    return Edited(changed, "discount_form")


def _find_listed(posted: QueryDict, asked: Request, option: Option, refuses_unsafe: bool) -> Edited:
    """Only looks: the line stays as it is typed."""
    return Edited(forms={"own_form": OwnLineForm(posted)})


def _take_listed(posted: QueryDict, asked: Request, option: Option, refuses_unsafe: bool) -> Edited:
    """Fills in the line from what a supplier lists; it is kept when it is added."""
    told = listed_line(posted.get("take-listed", ""), asked.on)
    if not told:
        return Edited(refused=say("Nobody lists this part any more: look for it again."))
    typed = {name: posted.get(f"own-{name}", "") for name in OwnLineForm.base_fields}
    filled = filled_in(told, typed)
    return Edited(forms={"own_form": OwnLineForm({f"own-{name}": value for name, value in filled.items()})})


ROW_EDITS: dict[str, Edit] = {"drop-own": _drop_own, "take-listed": _take_listed}
"""Buttons that name the row they stand in."""
EDITS: dict[str, Edit] = {
    "refuse": _refuse,
    "change-line": _change,
    "give-back": _give_back,
    "own-line": _own_line,
    "find-listed": _find_listed,
    "discount": _discount,
}
