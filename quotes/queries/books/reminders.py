"""Reading payment reminders: what may be claimed, how often it was before, and the paper of one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import date

from django.db.models import F, Max
from django.db.models.functions import Coalesce
from django.utils import translation

from quotes.calc.books.papers import Claim, ReminderPaper
from quotes.models import Customer, Invoice, ItemKind, OpenItem, PaymentReminder, ReminderSent
from quotes.models.books.payment import OpenItemQuerySet
from quotes.models.books.reminder import PaymentReminderQuerySet
from quotes.queries.books.account_letter import borne_by_letters_to


def claimable(customer: Customer, on: date) -> OpenItemQuerySet:
    """What is overdue of a customer, the longest first; without a day of payment it was due at once."""
    rows = OpenItem.objects.owed_to_us().filter(customer=customer)
    late = rows.annotate(late_day=Coalesce(F("due_on"), F("on"))).filter(late_day__lt=on)
    return late.order_by("late_day", "pk")


def times_sent(customer: Customer) -> Counter[str]:
    """In how many reminders that were sent each document was claimed; one that stayed here counts nothing."""
    sent = ReminderSent.objects.filter(reminder__customer=customer).values("reminder")
    rows = PaymentReminder.objects.filter(pk__in=sent).values_list("sheet__claims", flat=True)
    return Counter(claim["number"] for claims in rows for claim in claims)


def paper_of(reminder: PaymentReminder) -> ReminderPaper:
    """What was claimed, as it was kept."""
    return ReminderPaper.model_validate(reminder.sheet)


def reminder_paper(
    customer: Customer, items: Iterable[OpenItem], *, number: str, on: date, pay_by: date, words: str
) -> ReminderPaper:
    """A reminder of these documents, in the customer's language."""
    with translation.override(customer.reads):
        claims = claims_of(customer, items)
    return ReminderPaper(
        number=number,
        on=on,
        pay_by=pay_by,
        claims=claims,
        words=words,
        **borne_by_letters_to(customer),
    )


def claims_of(customer: Customer, items: Iterable[OpenItem]) -> tuple[Claim, ...]:
    """Each document with how often it is claimed by now."""
    before = times_sent(customer)
    return tuple(
        Claim(
            kind=str(ItemKind(item.kind).label),
            number=item.number,
            on=item.on,
            due_on=item.due_on or item.on,
            amount=item.amount,
            open=item.open_amount,
            time=before[item.number] + 1,
        )
        for item in items
    )


def reminders_of(invoice: Invoice) -> list[PaymentReminder]:
    """Every reminder that claims this document, the latest first; one query."""
    rows = PaymentReminder.objects.filter(customer=invoice.customer_id).with_last_sending()
    return [row for row in rows if any(c["number"] == invoice.number for c in row.sheet["claims"])]


def last_reminded(customers: Iterable[int]) -> dict[int, date]:
    """Day of the last reminder that was sent to each of these customers; one query."""
    rows = ReminderSent.objects.filter(reminder__customer__in=[*customers]).order_by()
    return dict(rows.values_list("reminder__customer").annotate(last=Max("on")))


def listed_reminders() -> PaymentReminderQuerySet:
    """As the list shows them."""
    return PaymentReminder.objects.with_last_sending().select_related("customer").defer("sheet")


def open_now(reminder: PaymentReminder, numbers: Sequence[str]) -> dict[str, OpenItem]:
    """The claimed documents as they stand today, by number."""
    rows = OpenItem.objects.filter(customer=reminder.customer_id, number__in=numbers)
    return {item.number: item for item in rows}
