"""Documents out of the ordinary are drawn and stored like any other: XSD and the rules let them pass."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest

from quotes.actions.books.drafts import start_sale
from quotes.documents.invoice.einvoice_check import findings
from quotes.models import Acceptance, Invoice
from tests.books import cast
from tests.books.cast import NOW
from tests.cast import books
from tests.quotes.cast import customer

# Issuing is tested on both; here the papers that come of it are read.
pytestmark = [pytest.mark.usefixtures("real_files"), pytest.mark.one_database]


def owed_back(build: Acceptance) -> Invoice:
    cast.deposited(build)
    draft = cast.drafted(build)

    return cast.issue(
        cast.changed(
            draft,
            lambda content: content.model_copy(
                update={
                    "lines": tuple(line for line in content.lines if line.kind in ("consumables", "deposit"))
                }
            ),
        )
    )


def of_nothing(build: Acceptance) -> Invoice:
    lines = [cast.line("Guarantee work"), cast.line("Guarantee work", quantity=Decimal(-1))]
    return cast.issue(start_sale(customer=customer("Nela Brook"), lines=lines, by=books(), now=NOW))


def two_rates(build: Acceptance) -> Invoice:
    cast.deposited(build)
    cast.change_rate("22")
    return cast.invoiced(build)


def credit_of_all(build: Acceptance) -> Invoice:
    cast.deposited(build)
    return cast.credited(cast.invoiced(build))


def credit_of_part(build: Acceptance) -> Invoice:
    return cast.credited(cast.invoiced(build, share_pct=Decimal("33.3")), {1: "0.7", 3: "1.111"})


def credit_of_deposit(build: Acceptance) -> Invoice:
    return cast.credited(cast.deposited(build))


@pytest.mark.parametrize(
    "made", [owed_back, of_nothing, two_rates, credit_of_all, credit_of_part, credit_of_deposit]
)
def test_it_is_drawn_and_the_published_rules_find_nothing(
    build: Acceptance, made: Callable[[Acceptance], Invoice]
) -> None:
    cast.keep_settings(iban="DE89370400440532013000", account_name="Sorrel Yard Engines")

    invoice = made(build)

    assert invoice.xml is not None
    assert findings(bytes(invoice.xml.content)) == ()
    assert bytes(invoice.pdf.content).startswith(b"%PDF-")
