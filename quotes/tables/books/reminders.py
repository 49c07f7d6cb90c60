"""Payment reminders as a list."""

from __future__ import annotations

from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, to_say
from catalogue.tables.columns import TextColumn
from quotes.models import PaymentReminder, SentHow
from quotes.tables.books.columns import BooksTable, CoinColumn, WordColumn
from quotes.tables.columns import DayColumn, LinkColumn

SENT, NOT_SENT = to_say("sent"), to_say("not sent yet")


class ReminderTable(BooksTable):
    """One row a reminder; bold is what was made and not sent."""

    state = WordColumn(
        _("State"), bold=frozenset({NOT_SENT}), accessor="sent_on", order_by=("-sent_on",), empty_values=()
    )
    number = LinkColumn(_("Payment reminder"), page="reminder", name="name")
    customer = LinkColumn(_("Customer"), page="statement", of="customer_id", order_by=("customer__name",))
    on = DayColumn(_("Dated"))
    pay_by = DayColumn(_("To be paid by"))
    sent_on = DayColumn(_("Sent on"))
    sent_how = TextColumn(_("How"))
    amount = CoinColumn(_("Sum"))

    class Meta:
        order_by = "-on"

    def render_state(self, value: object, column: WordColumn) -> str | SafeString:
        return column.render(SENT if value else NOT_SENT)

    def value_state(self, value: object) -> str:
        return say(SENT if value else NOT_SENT)

    def render_sent_how(self, value: str) -> str:
        return str(SentHow(value).label)

    value_sent_how = render_sent_how

    @staticmethod
    def value_number(record: PaymentReminder) -> str:
        return record.number
