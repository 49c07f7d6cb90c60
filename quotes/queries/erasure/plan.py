"""What is to be changed where a customer is erased, worked out and not yet done."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from django.apps import apps
from django.db import models
from django.db.models import Max
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, to_say
from quotes.calc.erasure.keeping import books_kept_until
from quotes.calc.erasure.thawed import Person, out_of_json, out_of_text, person
from quotes.calc.record.kept_json import kept_fingerprint
from quotes.calc.said_days import said_day
from quotes.models import Acceptance, Customer, Invoice, Job, OpenItem, Payment, Workshop, WriteOff
from quotes.queries.erasure.rules import BOOKS, RULES, Rule
from quotes.queries.record.held import rows_of

AT_ONCE = 20
REACHED_BY = ("address", "telephone", "email", "tax_registration")
FIELDS = {
    "name": to_say("name"),
    "address": to_say("address"),
    "telephone": to_say("telephone"),
    "email": to_say("email"),
    "tax_registration": to_say("tax registration"),
    "country": to_say("country"),
}
BY_HAND = (
    _("files of customers and of the bank that were handed in hold many people: look them through"),
    _("backups hold him until they are rotated out"),
    _("what was printed or sent is not reached from here"),
)


@dataclass(frozen=True, slots=True)
class RowChange:
    """One row: its columns as they become, the files that go with it, and those that become empty."""

    model: type[models.Model]
    row: int
    columns: Mapping[str, Any]
    old_sha256: str = ""
    new_sha256: str = ""
    files: tuple[int, ...] = ()
    emptied_files: tuple[int, ...] = ()


@dataclass(slots=True)
class ErasurePlan:
    """`goes` and `stays` are sentences without a name, as they are shown and kept."""

    customer: Customer
    person: Person
    as_of: date
    kept_until: date | None
    changes: list[RowChange] = field(default_factory=list)
    goes: list[str] = field(default_factory=list)
    stays: list[str] = field(default_factory=list)
    reached: list[tuple[str, list[int], tuple[str, ...]]] = field(default_factory=list)
    """Whose earlier values go as well: model, rows and columns."""
    links: int = 0

    @property
    def keeps_books(self) -> bool:
        return self.kept_until is not None and self.as_of <= self.kept_until


def in_hand(customer: Customer) -> tuple[str, ...]:
    """Why he can't be erased yet: what is still being done for him, or owed."""
    jobs = Job.objects.in_the_shop().filter(customer=customer).count()
    builds = Acceptance.objects.in_hand().filter(quote__customer=customer).count()
    owed = OpenItem.objects.filter(customer=customer).exclude(open_amount=0).count()
    said = (
        (jobs, say("engines of his are in the shop")),
        (builds, say("builds that he said yes to are not done")),
        (owed, say("documents or payments of his are still open")),
    )
    return tuple(f"{words}: {count}" for count, words in said if count)


def erasure_plan(customer: Customer, as_of: date) -> ErasurePlan:
    """Everything of him that goes on that day, and what stays and why."""
    stands_in = f"erased customer C-{customer.pk}"
    words = (getattr(customer, name) for name in ("name", *REACHED_BY))
    known = person(stands_in, *words)
    years = Workshop.objects.get_or_default().books_kept_years
    plan = ErasurePlan(customer, known, as_of, books_kept_until(_days(customer), years))
    for rule in RULES:
        _follow(plan, rule)
    _own_record(plan)
    plan.links = rows_of("link", customer).count()
    if plan.links:
        plan.goes.append(say("links to quotes: {count}, deleted", count=plan.links))
    return plan


def _days(customer: Customer) -> Iterator[date]:
    """The day of the youngest of each kind of what has to be kept."""
    last = (
        Invoice.objects.filter(customer=customer).aggregate(on=Max("issued_on"))["on"],
        Payment.objects.filter(customer=customer).aggregate(on=Max("on"))["on"],
        WriteOff.objects.filter(customer=customer).aggregate(on=Max("on"))["on"],
    )
    yield from (day for day in last if day is not None)
    at = Acceptance.objects.filter(quote__customer=customer).aggregate(at=Max("accepted_at"))["at"]
    if at is not None:
        yield at.date()


def _follow(plan: ErasurePlan, rule: Rule) -> None:
    """The rows of one model: what of them goes, and how many stay."""
    rows, kept = _rows(rule, plan.customer), 0
    if plan.keeps_books and rule.stays == "with the books":
        rows, kept = rows.none(), rows.count()
    elif plan.keeps_books and rule.stays == "with the yes":
        kept = rows.filter(**{f"{rule.yes}__isnull": False}).count()
        rows = rows.filter(**{f"{rule.yes}__isnull": True})
    plan.reached.append((rule.model, [*rows.values_list("pk", flat=True)], rule.columns))
    changes = [change for row in rows.iterator(AT_ONCE) if (change := _change(row, rule, plan.person))]
    plan.changes += changes
    if changes:
        plan.goes.append(f"{rule.many}: {len(changes)}, {rule.says}")
    if kept:
        told = to_say("{rows}: {count}, support the books, kept until {day}")
        if rule.stays == BOOKS:
            told = to_say("{rows}: {count}, are books, kept until {day}")
        plan.stays.append(say(told, rows=rule.many, count=kept, day=_until(plan)))


def _until(plan: ErasurePlan) -> str:
    return said_day(plan.kept_until) if plan.kept_until else ""


def _rows(rule: Rule, customer: Customer) -> models.QuerySet[Any]:
    if not rule.way:
        return rows_of(rule.model, customer)
    found: models.Manager[Any] = apps.get_model("quotes", rule.model)._default_manager
    return found.filter(**{rule.way: customer}).order_by("pk")


def _change(row: models.Model, rule: Rule, one: Person) -> RowChange | None:
    """What changes of one row; None where he no longer stands in it."""
    new = dict(_columns(row, rule, one))
    files = tuple(key for name in rule.papers if (key := getattr(row, f"{name}_id")) is not None)
    old_sha256 = new_sha256 = ""
    if "sheet" in new and hasattr(row, "sheet_sha256"):
        old_sha256, new_sha256 = row.sheet_sha256, kept_fingerprint(new["sheet"])
        new["sheet_sha256"] = new_sha256
    new |= {name: None for name in rule.papers if getattr(row, f"{name}_id") is not None}
    emptied = tuple(_not_empty_yet(row, rule))
    if not new and not emptied:
        return None
    return RowChange(type(row), row.pk, new, old_sha256, new_sha256, files, emptied)


def _columns(row: models.Model, rule: Rule, one: Person) -> Iterator[tuple[str, Any]]:
    wanted = {
        **{name: one.stands_in if getattr(row, name) else "" for name in rule.named},
        **dict.fromkeys(rule.emptied, ""),
        **{name: out_of_text(getattr(row, name), one) for name in rule.texts},
        **{name: out_of_json(getattr(row, name), one) for name in rule.sheets},
    }
    for name, value in wanted.items():
        if getattr(row, name) != value:
            yield name, value


def _not_empty_yet(row: models.Model, rule: Rule) -> Iterator[int]:
    for name in rule.photos:
        file = getattr(row, name)
        if file is not None and not file.is_erased:
            yield file.pk


def _own_record(plan: ErasurePlan) -> None:
    """Name and address stay with his books, for they stand on them; so does what else stands there."""
    customer = plan.customer
    if plan.keeps_books:
        printed = str(list(Invoice.objects.filter(customer=customer).values_list("sheet", flat=True)))
        wanted = {name: "" for name in ("telephone", "email") if getattr(customer, name) not in printed}
        until = _until(plan)
        plan.stays.append(say("name and address: they stand on his books, kept until {day}", day=until))
    else:
        wanted = {"name": plan.person.stands_in, "country": "", **dict.fromkeys(REACHED_BY, "")}
    plan.reached.append(("customer", [customer.pk], tuple(wanted)))
    new = {name: value for name, value in wanted.items() if getattr(customer, name) != value}
    if not new:
        return
    searched = {name: new.get(name, getattr(customer, name)) for name in ("name", "telephone", "email")}
    columns = new | {"search_key": Customer(**searched).make_search_key()}
    plan.changes.append(RowChange(Customer, customer.pk, columns))
    fields = ", ".join(say(FIELDS[name]) for name in sorted(new))
    plan.goes.append(say("his own record: {fields}", fields=fields))
