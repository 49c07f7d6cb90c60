"""Who is calling: a customer found by typing, or a new one."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import validate_email

from quotes.forms.fields import NUL, CardForm, quoted, text

LONGEST = {"name": 200, "telephone": 40, "email": 254, "address": 500}


class WhoPart(CardForm):
    """The customer. A number in `customer` means that one already known was picked."""

    customer = text("Known to us")
    name = text("Who is calling?")
    telephone = text("Telephone", type="tel", inputmode="tel")
    email = text("E-mail", inputmode="email")
    address = text("Address")

    def __init__(self, data: Any) -> None:
        super().__init__(data, label_suffix="")

    def clean(self) -> dict[str, Any]:
        """What is typed must be keepable, whether or not it is needed yet."""
        for name, longest in LONGEST.items():
            typed = self.typed(name)
            if NUL in typed:
                self.say_later(name, f"{quoted(typed)} holds a character that can't be kept: type it again.")
            elif len(typed) > longest:
                self.say_later(
                    name, f"{quoted(typed)} has {len(typed):,} characters: at most {longest} can be kept."
                )
        if (email := self.typed("email")) and "email" not in self.errors:
            self._check_email(email)
        return self.cleaned_data

    def _check_email(self, email: str) -> None:
        try:
            validate_email(email)
        except ValidationError:
            self.say_later("email", f"{quoted(email)} is not an address: such as desk@yard.example.")

    def say_later(self, name: str, fault: str) -> None:
        self.add_error(name, fault)

    def insist(self) -> None:
        """A quote is for somebody."""
        if not self.typed("name"):
            self.say("name", "Nothing is given: a quote needs the name of who it is for.")
