"""The yes that an invoice rests on, as values: the option, its extras and the extra work accepted since."""

from __future__ import annotations

from collections.abc import Iterable

from django.utils import timezone

from quotes.calc.invoice.values import Agreed, ExtraAgreed
from quotes.calc.sheet.issued_values import Sheet
from quotes.models import Acceptance, ExtraWork, ExtraWorkState


def agreed_of(build: Acceptance, extra_work: Iterable[ExtraWork] | None = None) -> Agreed:
    """Who accepted what up to which sum; `extra_work` of the build where it was read already."""
    rows = ExtraWork.objects.filter(build=build).order_by("index") if extra_work is None else extra_work
    return Agreed(
        quote=build.quote.number or "",
        revision=build.revision.index,
        option=build.tier_name,
        accepted_by=build.name,
        accepted_on=timezone.localdate(build.accepted_at),
        gross=build.gross,
        limit_sum=build.limit_sum,
        extra_work=tuple(_extra(build, row) for row in rows if row.state == ExtraWorkState.ACCEPTED),
    )


def _extra(build: Acceptance, row: ExtraWork) -> ExtraAgreed:
    assert row.answered_at is not None
    return ExtraAgreed(
        number=f"{build.quote.number}/{row.index}",
        words=row.words,
        gross=row.gross,
        accepted_by=row.answered_by,
        accepted_on=timezone.localdate(row.answered_at),
    )


def engine_of(build: Acceptance, quoted: Sheet) -> dict[str, str]:
    """What an invoice says of the engine: its name and number, and what it had run."""
    return {
        "engine_name": quoted.comparison.engine_type_name,
        "engine_number": build.quote.engine.number,
        "service_in_words": " ".join(quoted.comparison.history_in_words[:1]),
    }
