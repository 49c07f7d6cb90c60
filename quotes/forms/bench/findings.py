"""Putting to the customer what a build worked out again adds."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from quotes.forms.books.build import ExtraHead
from quotes.forms.figures import Day


class OfferForm(ExtraHead):
    """What was found and what it comes to, in words; the lines are those worked out."""

    new_ready_on = Day(_("Ready then on"), required=False)
