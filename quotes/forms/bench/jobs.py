"""What is said with a step of a job, and which quote it goes under."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast

from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from quotes.forms.figures import Choice, Line, Picked, SettingsForm
from quotes.models import Quote


class StepForm(SettingsForm):
    """A word with a step; a job that is let rest needs one."""

    note = Line(_("What is said with it"), 500)


class TieForm(SettingsForm):
    """One of the quotes for this engine."""

    quote = Picked(label=_("Which quote is its work offered under?"))

    def __init__(self, quotes: Sequence[Quote], *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.by_key = {str(quote.pk): quote for quote in quotes}
        named = [(key, quote.title) for key, quote in self.by_key.items()]
        cast(Choice, self.fields["quote"]).choices = [("", say("choose")), *named]

    def picked(self) -> Quote:
        return self.by_key[self.cleaned_data["quote"]]
