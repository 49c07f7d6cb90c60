"""How many inputs each address, form, file and command is given, and giving them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from tests.fuzz.asking import Found, ask
from tests.fuzz.commands import SOUND, of_command, run
from tests.fuzz.handing_in import IMPORTERS, Importer, hand_in
from tests.fuzz.inputs import of_address, of_body, of_form
from tests.fuzz.site import Site
from tests.fuzz.watch import Watch

SHARES = {"addresses": 0.28, "forms": 0.46, "bodies": 0.06, "importers": 0.10, "commands": 0.10}
"""Of all inputs; forms have the most to go wrong."""
JSON_TAKEN = ("teardown-take",)
PAPER_SHARE = 0.3
"""Of the share of another address: a paper takes a second to draw."""
Said = Callable[[str], None]


def rounds(site: Site, watch: Watch, found: Found, *, inputs: int, number: int, said: Said) -> None:
    """So many inputs over all, in the same order for the same number."""
    every, with_forms = site.addresses, [each for each in site.addresses if site.forms.get(each.route)]
    share = {name: round(inputs * part) for name, part in SHARES.items()}
    for address in every:
        paper = address.route.endswith((".pdf", ".xlsx", "/pdf/", "/workbook/"))
        count = share["addresses"] / len(every) * (PAPER_SHARE if paper else 1.15)
        _times(count, number, of_address(site, address), lambda asked: ask(asked, watch, found))
    said("addresses asked")
    for place, address in enumerate(with_forms):
        count = share["forms"] / len(with_forms)
        _times(count, number, of_form(site, address), lambda asked: ask(asked, watch, found))
        if place % 20 == 19:
            said(f"forms sent to {place + 1} of {len(with_forms)} addresses")
    posted = [each for each in with_forms if each.name not in JSON_TAKEN]
    for address in posted:
        count = share["bodies"] / 2 / len(posted)
        _times(count, number, of_body(site, address), lambda asked: ask(asked, watch, found))
    for address in [each for each in every if each.name in JSON_TAKEN]:
        _times(share["bodies"] / 2, number, of_body(site, address), lambda asked: ask(asked, watch, found))
    said("bodies sent")
    for importer in IMPORTERS:
        _times(
            share["importers"] / len(IMPORTERS),
            number,
            importer.contents,
            _hands(importer, site, watch, found),
        )
        said(f"{importer.kind} handed in")
    for name in SOUND:
        _times(share["commands"] / len(SOUND), number, of_command(name), _runs(name, found))
        said(f"{name} run")


def _hands(importer: Importer, site: Site, watch: Watch, found: Found) -> Callable[[bytes], None]:
    return lambda content: hand_in(importer, content, site, watch, found)


def _runs(name: str, found: Found) -> Callable[[bytes], None]:
    return lambda content: run(name, content, found)


def _times(count: float, number: int, inputs: st.SearchStrategy[Any], work: Callable[[Any], None]) -> None:
    """So many inputs of a sort, at least two; what is found is noted and nothing stops."""

    @seed(number)
    @settings(
        max_examples=max(2, round(count)),
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(inputs)
    def each(one: Any) -> None:
        work(one)

    each()
