"""What the settings page sends, with one thing changed."""

from __future__ import annotations

from django.test import Client
from django.urls import reverse

from tests.cast import owner
from tests.written_again import written_again


def shown(client: Client) -> dict[str, str]:
    """The fields of the page as the owner's browser would send them back untouched."""
    client.force_login(owner())
    return _shown()


@written_again
def _shown() -> dict[str, str]:
    """Read by the owner in a browser of its own; the same page in the next test is not read again."""
    client = Client()
    client.force_login(owner())
    context = client.get(reverse("settings")).context
    page, sent = context["page"], {"version": str(context["version"])}
    forms = [page.workshop, page.rates]
    for rows in page.lists:
        forms += [rows.management_form, *rows.forms]
    for form in forms:
        for cell in form:
            value = cell.value()
            if cell.widget_type == "checkbox":
                if value:
                    sent[cell.html_name] = "on"
            else:
                sent[cell.html_name] = "" if value is None else str(value)
    return sent


SALES_TAX = {
    "name": "Sorrel Yard Engines",
    "tax-0-code": "sales",
    "tax-0-category": "S",
    "tax-0-name_0": "State",
    "tax-0-rate_0": "6",
    "tax-0-name_1": "County",
    "tax-0-rate_1": "1.25",
    "tax-0-on_part": "on",
    "tax-0-on_machine_work": "on",
    "tax-0-on_consumables": "on",
}


def payload(client: Client, **change: str) -> dict[str, str]:
    """A workshop with a name and a sales tax on all but labour, otherwise as the page shows it."""
    return shown(client) | SALES_TAX | {name.replace("__", "-"): value for name, value in change.items()}
