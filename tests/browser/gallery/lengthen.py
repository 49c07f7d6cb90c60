"""A workshop whose names are as long as they may be, and whose lists go on and on."""

from __future__ import annotations

from django.utils import timezone

from quotes.models import Customer, Engine

LONG = "Bartholomew Feathergrove-Quillonhurst of the Upper Tannerbridges"
WORD = "Donaudampfschifffahrtsgesellschaftskapitaenswitwenrentenamt"
ROWS = 200


def lengthen() -> None:
    """Every customer's name has 60 letters or more, some in one word, and there are 200 of them and more."""
    for index, row in enumerate(Customer.objects.all()):
        row.name = f"{WORD if index % 5 == 0 else LONG} {index}"
        row.email = f"{WORD.lower()}.{index}@{LONG.split()[1].lower()}.example"
        row.address = f"{LONG}\n{WORD}\n12345 Anyborough"
        row.save()
    for index, engine in enumerate(Engine.objects.exclude(number="")):
        engine.number = f"{engine.number}-{WORD[:24]}-{index}"
        engine.save()
    for index in range(max(0, ROWS - Customer.objects.count())):
        Customer(name=f"{LONG} the {index}th", telephone="0555 0117", created_at=timezone.now()).save()
