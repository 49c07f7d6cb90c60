"""A form that knows what its page showed: what somebody else has kept since is said at its field.

Each field goes along with the value that it showed, as Django's forms can have it. One that was changed
meanwhile sends the form back once: with what was typed where something was typed, else with what stands now.
"""

from __future__ import annotations

from typing import Any, cast

from django.core.exceptions import ValidationError
from django.forms import BoundField
from django.http import QueryDict

from catalogue.calc.said import say, to_say
from quotes.forms.fields import quoted
from quotes.forms.figures import SettingsForm

NOTHING = to_say("nothing")


class SeenForm(SettingsForm):
    """`initial` is what stands now, for a page that is opened and for one that is sent."""

    def full_clean(self) -> None:
        self.show_what_was_seen()
        super().full_clean()
        if self.is_bound:
            for name in list(self.fields):
                self._say_changed(self[name])

    def show_what_was_seen(self) -> None:
        """Let each field send what it showed along with what is typed."""
        for field in self.fields.values():
            field.show_hidden_initial = True

    def __getitem__(self, name: str) -> BoundField:
        self.show_what_was_seen()
        return super().__getitem__(name)

    def _say_changed(self, cell: BoundField) -> None:
        if cell.html_initial_name not in self.data:
            return
        seen, stands = _sent(self.data.get(cell.html_initial_name)), _shown(cell)
        typed = _sent(cell.data)
        if seen == stands or typed == stands:
            return
        again = cast(QueryDict, self.data).copy()
        again[cell.html_initial_name] = stands
        if typed == seen:
            again[cell.html_name] = stands
        self.data = again
        self.add_error(
            cell.name,
            ValidationError(
                say(
                    "Somebody has changed this since you opened the page: from {seen} to {stands}. "
                    "Nothing was kept yet: look, then keep it again.",
                    seen=_said(seen),
                    stands=_said(stands),
                )
            ),
        )


def _sent(value: Any) -> str:
    """As one text, whatever line ends a browser sends."""
    if value in (None, False, "False"):
        return ""
    return str(value).replace("\r\n", "\n").strip()


def _shown(cell: BoundField) -> str:
    """What stands now, as the page would send it."""
    value = cell.field.prepare_value(cell.initial)
    return _sent(cell.field.hidden_widget().format_value(value))


def _said(value: str) -> str:
    return quoted(value) if value else say(NOTHING)
