"""A quote: the request that is being worked on, and where it stands."""

from __future__ import annotations

from datetime import date

from django.conf import settings
from django.db import models
from django.db.models import Case, F, Q, Value, When
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say
from catalogue.calc.search_key import search_key
from quotes.models.customer import Customer
from quotes.models.engine import Engine
from quotes.models.words import bearing, every_word, may_stand_in_a_number


class QuoteState(models.TextChoices):
    DRAFT = "draft", _("draft")
    ISSUED = "issued", _("issued")
    ASKED = "asked", _("asked about")
    ACCEPTED = "accepted", _("accepted")
    DECLINED = "declined", _("declined")
    LAPSED = "lapsed", _("lapsed")
    CLOSED = "closed", _("closed")


def _state(on: date) -> Case:
    return Case(
        When(accepted_at__isnull=False, then=Value(QuoteState.ACCEPTED.value)),
        When(closed_at__isnull=False, then=Value(QuoteState.CLOSED.value)),
        When(declined_at__isnull=False, then=Value(QuoteState.DECLINED.value)),
        When(latest=None, then=Value(QuoteState.DRAFT.value)),
        When(asked_at__isnull=False, then=Value(QuoteState.ASKED.value)),
        When(stands_until__lt=on, then=Value(QuoteState.LAPSED.value)),
        default=Value(QuoteState.ISSUED.value),
        output_field=models.CharField(),
    )


class QuoteQuerySet(models.QuerySet["Quote"]):
    def with_state(self, on: date) -> QuoteQuerySet:
        """Each with its `state` on that day; what was said counts before what has lapsed."""
        # By a dictionary, for the type checker would take the name for a second `Quote.state`.
        by_name = {"state": _state(on)}
        return self.annotate(**by_name)

    def in_state(self, state: str, on: date) -> QuoteQuerySet:
        """Those that stand so on that day, asked for by their columns, so that an index may find them."""
        answered = {"accepted": "accepted_at", "closed": "closed_at", "declined": "declined_at"}
        if state in answered:
            before = list(answered.values())[: list(answered).index(state)]
            return self.filter(
                **{f"{answered[state]}__isnull": False}, **{f"{name}__isnull": True for name in before}
            )
        wanted = {
            QuoteState.DRAFT: Q(latest=None),
            QuoteState.ASKED: Q(latest__isnull=False, asked_at__isnull=False),
            QuoteState.LAPSED: Q(asked_at=None, stands_until__lt=on),
            QuoteState.ISSUED: Q(asked_at=None, stands_until__gte=on),
        }
        return self.open().filter(wanted[QuoteState(state)])

    def joined(self) -> QuoteQuerySet:
        """With all that a list shows of a quote."""
        return self.select_related("customer", "engine", "latest", "created_by", "acceptance")

    def listed(self, on: date) -> QuoteQuerySet:
        """With state and joins, and without the sheets, which weigh more than all the rest."""
        return self.with_state(on).joined().defer("request", "latest__request", "latest__sheet")

    def found_by(self, text: str) -> QuoteQuerySet:
        """Quotes whose number, customer or engine number holds every word of `text`."""
        return self.filter(bears(text))

    def open(self) -> QuoteQuerySet:
        """Neither accepted, declined nor closed."""
        return self.filter(OPEN)

    def waiting(self, on: date) -> QuoteQuerySet:
        """Issued, still standing on that day, and without an answer."""
        return self.open().filter(stands_until__gte=on, asked_at=None)

    def changed_since_issue(self) -> QuoteQuerySet:
        """Issued once and worked on since, so that the customer holds an older state.

        What was never changed after it was kept is not looked at.
        """
        return self.open().filter(version__gt=1, edited_at__gt=F("latest__issued_at"))


BORNE_BY = {"customer": Customer.objects, "engine": Engine.objects}
"""Whose words a quote is found by, beside its own number."""
OPEN = Q(accepted_at=None, declined_at=None, closed_at=None)
UNANSWERED = Q(accepted_at=None, asked_at=None, closed_at=None, declined_at=None)


def bears(text: str) -> Q:
    """That a quote is found by the text; looks up whose words they are."""
    words = search_key(text).split()
    numbered = [Q(search_key__contains=word) if may_stand_in_a_number(word) else None for word in words]
    by = {name: bearing(rows.all(), words) for name, rows in BORNE_BY.items()}
    return every_word(words, by, numbered)


class Quote(models.Model):
    """The draft, with its number once the first revision is issued.

    `request` is `quotes.calc.ask.request.Request` as JSON; `version` counts its changes, so that two people
    who edit at once find out.
    """

    number = models.CharField(max_length=20, null=True, blank=True, unique=True, default=None)
    customer = models.ForeignKey("Customer", models.PROTECT, related_name="quotes")
    engine = models.ForeignKey("Engine", models.PROTECT, related_name="quotes")
    request = models.JSONField()
    version = models.PositiveIntegerField(default=1)
    note = models.TextField(max_length=2000, blank=True, default="")
    search_key = models.CharField(max_length=60, editable=False, blank=True, default="", db_index=True)
    card_key = models.UUIDField(null=True, default=None, unique=True, editable=False)
    """The card it was kept from, so that a second press of one card can't make a second quote."""
    created_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    created_at = models.DateTimeField(db_index=True)
    edited_at = models.DateTimeField()
    edited_by = models.CharField(max_length=150, blank=True, default="")
    latest = models.OneToOneField("Revision", models.PROTECT, null=True, blank=True, related_name="+")
    stands_until = models.DateField(null=True, blank=True, editable=False)
    """The last day of the latest revision, kept here too so that those of one state are counted by index."""
    confirmed_at = models.DateTimeField(null=True, blank=True)
    """Issued again when nothing had changed: the latest revision was meant to stand."""
    asked_at = models.DateTimeField(null=True, blank=True)
    accepted_at = models.DateTimeField(null=True, blank=True)
    declined_at = models.DateTimeField(null=True, blank=True)
    closed_at = models.DateTimeField(null=True, blank=True)

    objects = QuoteQuerySet.as_manager()

    state: str
    """Where it stands; there only on rows that were read with `with_state`."""

    class Meta:
        ordering = ["-created_at", "-id"]
        indexes = [
            models.Index(fields=["created_at", "search_key", "customer", "engine"], name="quote_listed"),
            models.Index(fields=["customer", "created_at"], name="quote_of_customer"),
            models.Index(fields=["latest"], condition=OPEN, name="quote_open"),
            models.Index(fields=["version"], condition=OPEN, name="quote_open_changed"),
            models.Index(
                fields=["stands_until", "created_at"],
                condition=UNANSWERED,
                name="quote_unanswered",
            ),
            models.Index(
                fields=["created_at", "id", "stands_until"],
                condition=UNANSWERED,
                name="quote_unanswered_listed",
            ),
        ]
        constraints = [
            models.CheckConstraint(
                condition=Q(number=None, latest=None) | Q(number__isnull=False, latest__isnull=False),
                name="quote_numbered_when_issued",
            ),
            models.CheckConstraint(
                condition=Q(latest=None, stands_until=None)
                | Q(latest__isnull=False, stands_until__isnull=False),
                name="quote_stands_until_when_issued",
            ),
        ]

    def __str__(self) -> str:
        return self.title

    @property
    def title(self) -> str:
        """The number, or that it is a draft."""
        return self.number or say("draft {number}", number=self.pk)
