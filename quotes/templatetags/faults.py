"""What is wrong with what was sent: each fault at its field, and all of them at the head, with links there.

The head finds the forms of a page by itself, so a new page has its list without asking for it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from typing import Any

from django import template
from django.forms import BaseForm, BaseFormSet
from django.forms.boundfield import BoundField
from django.template import Context

register = template.Library()

DEEPEST = 4
"""Forms within forms within rows of a page: none lies deeper."""


@dataclass(frozen=True, slots=True)
class FaultShown:
    """One fault of a page: the name of its field and where that stands; both empty for the form's own."""

    fault: str
    label: str = ""
    place: str = ""


@register.filter
def fault(field: BoundField) -> str:
    """What stands at the field: a cell of a card says one fault at a time, other fields all of theirs."""
    said = getattr(field, "fault", None)
    return str(said) if said is not None else " ".join(map(str, field.errors))


@register.filter
def unit_of(field: BoundField) -> str:
    """The unit that the field itself is kept in, or nothing."""
    return str(getattr(field.field, "unit", ""))


@register.inclusion_tag("faults.html", takes_context=True)
def faults_of_page(context: Context, lead: str = "") -> dict[str, Any]:
    """The faults of every form that was sent with this page."""
    request = context.get("request")
    if request is None or request.method != "POST":
        return {"faults": ()}
    forms = _forms(context.flatten().values())
    return {"lead": lead, "faults": tuple(dict.fromkeys(one for form in forms for one in _faults(form)))}


def _forms(values: Iterable[Any], depth: int = 0, seen: set[int] | None = None) -> Iterator[BaseForm]:
    """Every form among them that was looked through, once; also those that a value of ours holds."""
    seen = set() if seen is None else seen
    for value in values:
        if id(value) in seen:
            continue
        seen.add(id(value))
        if isinstance(value, BaseForm):
            yield value
        if depth < DEEPEST:
            yield from _forms(_within(value), depth + 1, seen)


def _within(value: Any) -> Iterable[Any]:
    if isinstance(value, Mapping):
        return value.values()
    if isinstance(value, list | tuple):
        return value
    if isinstance(value, BaseFormSet):
        return value.forms
    module = type(value).__module__
    if not module.startswith(("quotes.forms", "quotes.views", "catalogue.forms")):
        return ()
    if is_dataclass(value):
        return [getattr(value, field.name) for field in fields(value)]
    return (
        [one for name, one in vars(value).items() if not name.startswith("_")]
        if hasattr(value, "__dict__")
        else ()
    )


def _faults(form: BaseForm) -> Iterator[FaultShown]:
    """Read without asking the form to look itself through: a form of another press has not been sent."""
    for name, said in (vars(form)["_errors"] or {}).items():
        if name in form.fields and not form[name].is_hidden:
            yield _at(form[name])
        else:
            yield from (FaultShown(str(one)) for one in said)


def _at(cell: BoundField) -> FaultShown:
    """The label stands once, before a colon: where the fault begins with it, and where it asks something."""
    label = str(cell.label)
    place = f"{cell.auto_id}_error" if _spread(cell) else cell.id_for_label
    return FaultShown(fault(cell).removeprefix(f"{label}: "), label.rstrip("? "), place)


def _spread(cell: BoundField) -> bool:
    """Whether it is drawn as several, so that none of them is the field."""
    return cell.use_fieldset or not cell.id_for_label
