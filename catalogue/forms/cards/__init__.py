"""The card of every kind of entry."""

from catalogue.forms.cards.bought import FACTS, MACHINE_WORK, PARTS, POLICIES, SOURCES, SUPPLIERS
from catalogue.forms.cards.built import DUTIES, ENGINE_TYPES
from catalogue.forms.cards.done import OPERATIONS
from catalogue.forms.cards.seen import EVENTS, FINDINGS, LIMITS
from catalogue.forms.cards.tiers import LOAD_LAWS, TIERS
from catalogue.forms.cards.worn import COMPONENTS
from catalogue.forms.inputs import Card

CARDS: dict[str, Card] = {
    card.kind: card
    for card in (
        PARTS,
        COMPONENTS,
        OPERATIONS,
        MACHINE_WORK,
        TIERS,
        LOAD_LAWS,
        DUTIES,
        ENGINE_TYPES,
        FINDINGS,
        EVENTS,
        LIMITS,
        SUPPLIERS,
        SOURCES,
        FACTS,
        POLICIES,
    )
}

__all__ = ["CARDS", "Card"]
