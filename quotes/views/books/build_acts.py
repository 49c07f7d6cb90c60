"""What can be done next about the money of a build, the one that is due first."""

from __future__ import annotations

from dataclasses import dataclass

from django.urls import reverse

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.models import DepositBy
from quotes.queries.books.account import BuildAccount
from quotes.queries.books.chart import books_settings


@dataclass(frozen=True, slots=True)
class Act:
    """One thing that can be done next. `post`: by a press, else by a link."""

    label: str
    url: str
    post: bool = False


def next_acts(account: BuildAccount) -> list[Act]:
    """What can be done next, the one that is due first."""
    called_off = account.build.is_called_off
    acts = [
        Act(
            say("Go on with the draft {kind}", kind=row.get_kind_display()),
            reverse("invoice-draft", args=[row.pk]),
        )
        for row in account.drafts
    ]
    if not called_off:
        acts += _deposit_acts(account)
    if account.to_invoice and all(row.kind != "invoice" for row in account.drafts):
        invoice = reverse("build-invoice", args=[account.build.pk])
        acts.append(Act(_invoice_words(account), invoice, True))
    if called_off and not account.to_invoice:
        acts += _deposit_back(account)
    acts += _payment_acts(account)
    return acts + _paying_back(account) if called_off else acts


def _payment_acts(account: BuildAccount) -> list[Act]:
    new = reverse("payment-new")
    return [
        Act(say("Take a payment on {number}", number=row.number), f"{new}?invoice={row.pk}")
        for row in account.documents
        if row.kind == "invoice" and row.item.open_amount > ZERO
    ]


def _paying_back(account: BuildAccount) -> list[Act]:
    return [
        Act(
            say("Pay back what {number} leaves", number=row.number),
            reverse("payment-back", args=[row.item.pk]),
        )
        for row in account.documents
        if row.item.open_amount < ZERO
    ]


def _invoice_words(account: BuildAccount) -> str:
    if account.build.is_called_off:
        return say("Invoice the work so far")
    return say("Invoice what is left") if account.asked_gross > ZERO else say("Invoice")


def _deposit_back(account: BuildAccount) -> list[Act]:
    """What is held and nothing is left to take off: paid back, or credited where it was invoiced."""
    return [
        Act(say("Credit the deposit {number}", number=one.number), reverse("invoice", args=[one.pk]))
        if one.by == "invoice"
        else Act(
            say("Pay back the deposit {number}", number=one.number), reverse("deposit-back", args=[one.pk])
        )
        for one in account.deposits
        if one.left > ZERO
    ]


def _deposit_acts(account: BuildAccount) -> list[Act]:
    """The deposit, as the workshop takes it, until the build is invoiced."""
    acts = [
        Act(
            say("Take the deposit, {number}", number=row.number), f"{reverse('payment-new')}?invoice={row.pk}"
        )
        for row in account.deposits
        if row.by == "invoice" and row.unpaid > ZERO
    ]
    begun = any(row.kind == "deposit_invoice" for row in account.drafts)
    if account.deposit_to_ask and not account.asked_gross and not begun:
        if books_settings().deposit_by == DepositBy.RECEIPT:
            acts.append(Act(say("Take the deposit"), f"{reverse('payment-new')}?build={account.build.pk}"))
        else:
            acts.append(
                Act(say("Ask for the deposit"), reverse("build-deposit", args=[account.build.pk]), True)
            )
    return acts
