"""The small forms of the worksheet: a refusal, a changed line, a line of our own, a discount."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar

from django import forms
from django.utils.translation import gettext_lazy as _
from pydantic import BaseModel, ValidationError

from catalogue.calc.said import say
from quotes.calc.ask.request import Edits, LineChange, OwnLine, Refusal
from quotes.forms.asked import Asked, filled
from quotes.forms.bought import bought_choices, bought_fault, suppliers_of_parts
from quotes.forms.faults import say_invalid
from quotes.forms.fields import CardForm, choice, day, number, text, tick
from quotes.forms.filling import written

KINDS = [
    ("part", _("part")),
    ("labour", _("work")),
    ("machine_work", _("machine work sent out")),
    ("consumables", _("consumables")),
]
FIGURES = frozenset({"quantity", "unit_price", "cost", "discount_pct"})
Made = TypeVar("Made", bound=BaseModel)


class HandForm(CardForm):
    """A form that makes one value of the request, or says at its fields why it can't."""

    prefix_name = ""

    def __init__(self, data: Mapping[str, Any] | None = None) -> None:
        super().__init__(data, prefix=self.prefix_name, label_suffix="")

    def make(self, model: type[Made], **known: Any) -> Made | None:
        """The value, or None with every fault at its field; what is missing is a fault too."""
        names = {name: name for name in self.fields if name in model.model_fields}
        asked = Asked(values=filled(self, names, FIGURES) | known)
        for name in names:
            asked.mark((name,), self, name)
        try:
            made = model.model_validate(asked.values)
        except ValidationError as invalid:
            say_invalid(asked, invalid)
            for error in invalid.errors():
                if error["type"] == "missing" and (place := asked.place(error["loc"])):
                    place.form.say(place.name, say("Nothing is given. {label}: needed.", label=place.label))
            return None
        return made if not self.errors else None


class RefusalForm(HandForm):
    """The customer's signed word that a line which must be renewed stays as it is."""

    prefix_name = "refusal"
    signed_by = text(_("Signed by"), maxlength="200")
    on = day(_("On"))
    reason = text(_("Because"), maxlength="500")

    def refusal(self, component: str) -> Refusal | None:
        if not self.typed("reason"):
            self.say("reason", say("Nothing is given. Because: say why the customer leaves it."))
        return self.make(Refusal, component=component)


class LineForm(HandForm):
    """A quantity or a price set by hand, and why."""

    prefix_name = "line"
    quantity = number(_("Quantity"))
    unit_price = number(_("Each"))
    note = text(_("Why, for the record"), maxlength="300")

    def change(self) -> LineChange | None:
        if not self.typed("quantity") and not self.typed("unit_price"):
            self.say("quantity", say("Nothing is given. Write a quantity, a price, or both."))
        return self.make(LineChange)


class OwnLineForm(HandForm):
    """A line of our own on one option."""

    prefix_name = "own"
    description = text(_("A line of our own"), maxlength="300")
    kind = choice(_("Kind"), KINDS)
    quantity = number(_("Quantity"))
    unit = text(_("Unit"), maxlength="40", placeholder=_("each"))
    unit_price = number(_("Each, before tax"))
    only_if_needed = tick(_("priced, not in the sum"))
    note = text(_("Because"), maxlength="500")
    supplier = choice(_("Bought of"))
    cost = number(_("One costs us"))
    number = text(_("Part number"), maxlength="64")

    def __init__(self, data: Mapping[str, Any] | None = None) -> None:
        super().__init__(data)
        self.suppliers = suppliers_of_parts()
        self.fields["supplier"].widget = forms.Select(choices=bought_choices(self.suppliers))

    def line(self) -> OwnLine | None:
        if fault := bought_fault(self.typed("supplier"), self.typed("number"), self.suppliers):
            self.say(*fault)
        return self.make(OwnLine, included=not self.typed("only_if_needed"))


class DiscountForm(HandForm):
    """A share off the whole option."""

    prefix_name = "off"
    discount_pct = number(_("Discount"))
    discount_reason = text(_("Because"), maxlength="500")

    def edits(self) -> Edits | None:
        if self.typed("discount_pct") not in ("", "0") and not self.typed("discount_reason"):
            self.say("discount_reason", say("Nothing is given. Because: a discount needs its reason."))
        return self.make(Edits)


FORMS: dict[str, type[HandForm]] = {
    "refusal_form": RefusalForm,
    "line_form": LineForm,
    "own_form": OwnLineForm,
    "discount_form": DiscountForm,
}


def hand_forms(
    posted: Mapping[str, Any], edits: Edits, line: str = "", *, but: str = ""
) -> dict[str, HandForm]:
    """All small forms with what was typed into them; `but` has been applied and comes back as it stands.

    What stands is the discount that is set, and the change that `line` bears.
    """
    standing = _standing(edits, line)
    return {
        name: form(posted if posted and name != but else standing.get(name)) for name, form in FORMS.items()
    }


def _standing(edits: Edits, line: str) -> dict[str, dict[str, str]]:
    told: dict[str, dict[str, str]] = {}
    if edits.discount_pct:
        told["discount_form"] = {
            "off-discount_pct": written(edits.discount_pct),
            "off-discount_reason": edits.discount_reason,
        }
    if change := edits.lines.get(line):
        values = change.model_dump(exclude_none=True)
        told["line_form"] = {f"line-{name}": written(value) for name, value in values.items()}
    return told
