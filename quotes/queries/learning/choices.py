"""What a row of evidence may name: engine types, components with a life, duties, tunes, units, outcomes."""

from __future__ import annotations

from collections.abc import Mapping

from catalogue.queries import duty_choices, engine_type_choices, tier_choices
from quotes.models import Outcome, ServiceUnit
from quotes.queries.learning.rows import Catalogues

Names = Mapping[str, Mapping[str, str]]


def evidence_names(known: Catalogues) -> Names:
    """Names by code, by what they name."""
    types = dict(engine_type_choices())
    components: dict[str, str] = {}
    for code in types:
        catalogue = known.of(code)
        for one in catalogue.components.values() if catalogue else ():
            if one.lives and not one.service_item:
                components.setdefault(one.code, one.name)
    return {
        "type_code": types,
        "component": components,
        "outcome": {str(code): str(name) for code, name in Outcome.choices},
        "unit": {str(code): str(name) for code, name in ServiceUnit.choices},
        "duty": dict(duty_choices()),
        "tier": dict(tier_choices()),
    }
