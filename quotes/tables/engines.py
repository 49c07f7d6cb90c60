"""The list of customers' engines."""

from __future__ import annotations

from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from catalogue.tables.columns import ChoiceColumn, NumberColumn, TextColumn
from catalogue.tables.tables import EntryTable
from quotes.models import Engine
from quotes.tables.columns import LinkColumn


class EngineTable(EntryTable):
    """One row an engine; whether its past is known stands as a word."""

    number = LinkColumn(_("Engine"), page="engine", name="name", empty_values=())
    type_code = TextColumn(_("Type"))
    customer = LinkColumn(_("Customer"), page="customer", of="customer_id", order_by=("customer__name",))
    delivered = ChoiceColumn(_("Comes to us"))
    history_known = TextColumn(_("Its past"))
    quotes_kept = NumberColumn(_("Quotes"))

    class Meta:
        order_by = "number"

    def __init__(self, *args: object, engine_types: dict[str, str], **options: object) -> None:
        self.engine_types = engine_types
        super().__init__(*args, **options)

    @staticmethod
    def render_number(value: str, column: LinkColumn, record: Engine, table: EntryTable) -> SafeString:
        """A link needs words even where the engine has no number."""
        return column.render(value or say("no number"), record, table)

    def render_type_code(self, value: str) -> str:
        return self.engine_types.get(value, value)

    value_type_code = render_type_code

    @staticmethod
    def render_history_known(value: bool) -> str:
        return say("known") if value else say("not known")

    value_history_known = render_history_known

    @staticmethod
    def value_number(record: Engine) -> str:
        return record.number
