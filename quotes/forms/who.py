"""Who is calling: a customer found by typing, or a new one."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import validate_email
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, say_figure
from catalogue.calc.typed_figure import typed_number
from quotes.forms.fields import NUL, CardForm, quoted, text

LONGEST = {"name": 200, "telephone": 40, "email": 254}


class WhoPart(CardForm):
    """The customer. `pick` names a customer and one of their engines, as "12-34", or "12-" for another."""

    pick = text(_("Known to us"))
    picked = text(_("The one whose engine the card already shows"))
    name = text(_("Who is calling?"))
    telephone = text(_("Telephone"), inputmode="tel")
    email = text(_("E-mail"), inputmode="email")

    def __init__(self, data: Any) -> None:
        super().__init__(data, label_suffix="")

    def clean(self) -> dict[str, Any]:
        """What is typed must be keepable, whether or not it is needed yet."""
        for name, longest in LONGEST.items():
            typed = self.typed(name)
            if NUL in typed:
                self.add_error(
                    name,
                    say("{typed} holds a character that can't be kept: type it again.", typed=quoted(typed)),
                )
            elif len(typed) > longest:
                self.add_error(
                    name,
                    say(
                        "{typed} has {count} characters: at most {longest} can be kept.",
                        typed=quoted(typed),
                        count=say_figure(len(typed), 0),
                        longest=longest,
                    ),
                )
        if (email := self.typed("email")) and "email" not in self.errors:
            self._check_email(email)
        return self.cleaned_data

    def _check_email(self, email: str) -> None:
        try:
            validate_email(email)
        except ValidationError:
            self.add_error(
                "email", say("{email} is not an address: such as desk@yard.example.", email=quoted(email))
            )

    @property
    def pick_typed(self) -> str:
        return self.typed("pick")

    @property
    def customer_id(self) -> int | None:
        """The customer that was picked, if any."""
        return typed_number(self.pick_typed.partition("-")[0])

    @property
    def engine_id(self) -> int | None:
        """The engine that was picked, if any."""
        return typed_number(self.pick_typed.partition("-")[2])

    def insist(self) -> None:
        """A quote is for somebody."""
        if not self.typed("name"):
            self.say("name", say("Nothing is given: a quote needs the name of who it is for."))
