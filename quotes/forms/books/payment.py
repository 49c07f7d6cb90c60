"""Taking a payment, paying money back, taking a payment back that did not hold, and writing off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any
from uuid import uuid4

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.forms.books.fields import Amount, Coins, Payer, coins_of
from quotes.forms.fields import CardField
from quotes.forms.figures import Choice, Line, NotLater, Picked, SettingsForm, shown
from quotes.models import OpenItem, PaymentMethod

METHODS = [("", _("choose")), *PaymentMethod.choices]
OLDEST, CHOSEN = "oldest", "chosen"


def fresh_key() -> str:
    """What tells a second press of one form from a second payment."""
    return uuid4().hex


class MoneyForm(SettingsForm):
    """A form with sums in the workshop's currency and days that have come."""

    def __init__(self, *args: Any, currency: str, decimals: int, today: date, **options: Any) -> None:
        super().__init__(*args, **options)
        self.decimals = decimals
        coins_of(self, currency, decimals)
        for field in self.fields.values():
            if isinstance(field, NotLater):
                field.today = today


@dataclass(frozen=True, slots=True)
class ItemCell:
    """One open item with the field for how much of the payment it gets."""

    item: OpenItem
    cell: CardField


class ReceivedForm(MoneyForm):
    """Money that came in: from whom, how and when. `key` lets a second press take nothing."""

    key = forms.CharField(widget=forms.HiddenInput, required=False, max_length=64)
    customer = Payer(_("Who pays?"), required=True)
    amount = Amount(_("How much?"))
    method = Picked(label=_("How?"), choices=METHODS)
    on = NotLater(_("On which day?"))
    reference = Line(_("Reference"), 140, help_text=_("What the bank or the card slip says, if anything."))


class PaymentForm(ReceivedForm):
    """What came in, and what it settles."""

    use = Choice(
        label=_("What it settles"),
        choices=[(OLDEST, _("the oldest first")), (CHOSEN, _("what is written in below"))],
        widget=forms.RadioSelect,
        required=False,
    )

    def __init__(self, *args: Any, items: Sequence[OpenItem] = (), **options: Any) -> None:
        currency, decimals = options["currency"], options["decimals"]
        super().__init__(*args, **options)
        self.items = list(items)
        for item in self.items:
            self.fields[f"item_{item.pk}"] = Coins(say("On {number}", number=item.number), required=False)
        coins_of(self, currency, decimals)

    def item_cells(self) -> list[ItemCell]:
        return [ItemCell(item, self[f"item_{item.pk}"]) for item in self.items]  # type: ignore[arg-type]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if data.get("use") == CHOSEN and not self.errors:
            self._refuse_too_much(data)
        return data

    def _refuse_too_much(self, data: dict[str, Any]) -> None:
        written = {item: data[f"item_{item.pk}"] for item in self.items if data.get(f"item_{item.pk}")}
        for item, given in written.items():
            if given > item.open_amount:
                left = shown(item.open_amount)
                self.add_error(
                    f"item_{item.pk}",
                    say(
                        "“{given}” is more than {left}, which is open on {number}.",
                        given=shown(given),
                        left=left,
                        number=item.number,
                    ),
                )
        together = sum(written.values(), ZERO)
        if together <= data["amount"]:
            return
        if len(written) == 1:  # a part payment of one document: that gets all of it
            data[f"item_{next(iter(written)).pk}"] = data["amount"]
            return
        self.add_error(
            "amount",
            say(
                "“{amount}” is less than {together}, which is written in below.",
                amount=shown(data["amount"]),
                together=shown(together),
            ),
        )

    def allocation(self) -> dict[int, Decimal] | None:
        """Open item to sum; None settles the oldest first."""
        if self.cleaned_data["use"] != CHOSEN:
            return None
        given = {item.pk: self.cleaned_data.get(f"item_{item.pk}") for item in self.items}
        return {pk: amount for pk, amount in given.items() if amount}


class DepositPaymentForm(ReceivedForm):
    """A deposit that is held for one build, without a deposit invoice."""


class RefundForm(MoneyForm):
    """Money that goes back to a customer. `most` is what is owed to them."""

    key = forms.CharField(widget=forms.HiddenInput, required=False, max_length=64)
    amount = Amount(_("How much?"))
    method = Picked(label=_("How?"), choices=METHODS)
    on = NotLater(_("On which day?"))
    note = Line(_("Why"), 300)

    def __init__(self, *args: Any, most: Decimal, **options: Any) -> None:
        super().__init__(*args, **options)
        self.most = most

    def clean_amount(self) -> Decimal:
        amount: Decimal = self.cleaned_data["amount"]
        if amount > self.most:
            raise ValidationError(
                say(
                    "“{amount}” is more than {most}, which is owed back.",
                    amount=shown(amount),
                    most=shown(self.most),
                )
            )
        return amount


class TakeBackForm(MoneyForm):
    """A payment that did not hold."""

    on = NotLater(_("On which day?"))
    note = Line(_("Why did it not hold?"), 300, required=True)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["note"].error_messages["required"] = say("Nothing is given: such as, the cheque bounced.")


class WriteOffForm(MoneyForm):
    """What the owner gives up asking for."""

    amount = Amount(_("How much?"))
    on = NotLater(_("On which day?"))
    reason = Line(_("Why"), 300, required=True)

    def __init__(self, *args: Any, most: Decimal, **options: Any) -> None:
        super().__init__(*args, **options)
        self.most = most
        self.fields["reason"].error_messages["required"] = say("Nothing is given: the books need the reason.")

    def clean_amount(self) -> Decimal:
        amount: Decimal = self.cleaned_data["amount"]
        if amount > self.most:
            raise ValidationError(
                say(
                    "“{amount}” is more than {most}, which is still open.",
                    amount=shown(amount),
                    most=shown(self.most),
                )
            )
        return amount
