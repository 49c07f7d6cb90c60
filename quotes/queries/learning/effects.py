"""What a proposed life would do to the three standard quotes, with the workshop as it stands."""

from __future__ import annotations

from datetime import date

from catalogue.calc.approved_lives import with_approved
from catalogue.calc.engine import EngineCatalogue
from quotes.calc.learning.proposal import Proposal
from quotes.calc.learning.standard_quotes import Effect, effects
from quotes.queries import comparison
from quotes.queries.learning.rows import Catalogues
from quotes.queries.workshop import shop_rules


def effects_of(proposal: Proposal, on: date) -> tuple[Effect, ...]:
    """Before and after, for every engine type that is on the list of standard quotes."""
    known, changed = Catalogues(), proposal.approved()

    def after(code: str) -> EngineCatalogue | None:
        catalogue = known.of(code)
        return with_approved(catalogue, [changed]) if catalogue else None

    return effects(known.of, after, shop_rules(on), on, comparison.compare)
