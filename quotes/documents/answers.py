"""What one column of the comparison answers to each of the customer's questions."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.said import say, say_count, say_figure
from quotes.calc.sheet.base_values import Service
from quotes.calc.sheet.chance_values import Chance, Due, HazardShare, Opening, WheelLock
from quotes.calc.sheet.tune_values import PowerBand
from quotes.calc.sheet.tune_words import power_at_its_peak
from quotes.calc.sheet.values import Comparison, Option
from quotes.documents.figures import is_the_rest
from quotes.documents.words import (
    NO_BREAK,
    amount_in_words,
    bare_chance,
    chance_in_words,
    day,
    estimate_in_words,
    figure,
    first_large,
    inside,
    listed,
    low_to_high,
    percent_band,
    plain_name,
    risk_band,
    risk_in_words,
    whole_percent,
)


@dataclass(frozen=True, slots=True)
class AnswerCell:
    """One answer: words to read, a second line in small, and the bare value for a workbook."""

    words: str
    note: str = ""
    value: Decimal | float | date | None = None


TOLD = 3
"""So many openings are told one by one."""
EMPTY = AnswerCell("–")  # noqa: RUF001
Answers = dict[str, AnswerCell]


def leave_answers(comparison: Comparison, language: str) -> Answers:
    """The engine as it came in, with oil and filter at most."""
    leave = comparison.leave_it
    sums = {"gross": leave.gross, "net": leave.net, "tax": leave.tax}
    if leave.expected_loss is not None:
        sums["loss"] = leave.expected_loss
    return {
        **{code: _money(amount, comparison, language) for code, amount in sums.items()},
        **_chances(leave.chance),
        "goes": _goes(leave.where_the_chance_goes),
        "locks": _locks(leave.wheel_lock),
        "good_for": _good_for(leave.good_for, leave.good_for_reason),
        "first_due": _due(leave.falls_due[0], comparison) if leave.falls_due else EMPTY,
        "power": AnswerCell(say("as it is"), _measured(leave.power)),
        "hours": AnswerCell(figure(leave.hours, 1, language), value=leave.hours),
    }


def option_answers(option: Option, comparison: Comparison, language: str, class_name: str) -> Answers:
    """One option: its sums, chances, life, power and dates."""
    return {
        **_sums(option, comparison, language),
        "between": _between(option, comparison, language),
        **_chances(option.chance),
        **_dates(option, language),
        "goes": _goes(option.where_the_chance_goes),
        "locks": _locks(option.wheel_lock),
        "good_for": _good_for(option.good_for, option.good_for_reason),
        "opened": _opened(option),
        "first_due": _due(option.first_due, comparison) if option.first_due else EMPTY,
        "power": _power(option),
        "class": _class(option, class_name),
        "hours": AnswerCell(figure(option.hours, 1, language), value=option.hours),
    }


def _money(amount: Decimal, comparison: Comparison, language: str, note: str = "") -> AnswerCell:
    return AnswerCell(figure(amount, comparison.decimals, language), note, amount)


def _sums(option: Option, comparison: Comparison, language: str) -> Answers:
    sums = {
        "gross": option.gross.typical,
        "net": option.net.typical,
        "tax": option.tax.typical,
        "deposit": option.deposit,
    }
    if not comparison.firm:
        sums |= {"gross_low": option.gross.low, "gross_high": option.gross.high}
    if option.expected_loss is not None:
        sums["loss"] = option.expected_loss
    each = amount_in_words(1, option.cost_unit).removeprefix("1 ")
    return {
        **{code: _money(amount, comparison, language) for code, amount in sums.items()},
        "season_cost": _money(option.cost_per_season, comparison, language, usual_season(option)),
        "unit_cost": _money(option.cost_per_unit, comparison, language, say("per {unit}", unit=each)),
        **_whole_season(option, comparison, language),
    }


def usual_season(option: Option) -> str:
    """How long the season is that a season's cost is for; nothing on a sheet of before it was said."""
    if option.season_use is None:
        return ""
    return say("of {amount}, as is usual", amount=estimate_in_words(option.season_use, option.cost_unit))


def _whole_season(option: Option, comparison: Comparison, language: str) -> Answers:
    """Where one of the options is opened on the way, every one is asked what the season comes to."""
    if not any(each.season for each in comparison.options):
        return {}
    count = len(option.season.openings) if option.season else 0
    note = say_count("{count} opening", "{count} openings", count) if count else say("not opened")
    return {"planned_gross": _money(option.planned_gross.typical, comparison, language, note)}


def _between(option: Option, comparison: Comparison, language: str) -> AnswerCell:
    if comparison.firm:
        return EMPTY
    low, high = (
        figure(each, comparison.decimals, language) for each in (option.gross.low, option.gross.high)
    )
    return AnswerCell(low_to_high(low, high))


def _chances(chance: Chance) -> Answers:
    last = whole_percent(chance.last_event)
    answers = {
        "chance": AnswerCell(chance_in_words(chance.value), whole_percent(chance.value), chance.value),
        "chance_low": AnswerCell(whole_percent(chance.low), value=chance.low),
        "chance_high": AnswerCell(whole_percent(chance.high), value=chance.high),
        "likely": AnswerCell(percent_band(chance.low, chance.high)),
        "meeting": AnswerCell(whole_percent(chance.first_event), _meetings(chance), chance.first_event),
        "last_meeting": AnswerCell(last, value=chance.last_event),
    }
    if chance.target is not None:
        reached = say("yes") if chance.to_first_opening is None else say("up to its opening")
        answers["aim"] = AnswerCell(
            reached if chance.target_met else say("no"),
            say("aim {chance}", chance=bare_chance(chance.target)),
        )
    return answers


def _meetings(chance: Chance) -> str:
    """The band of the first meeting, and the last one with its own where it is another."""
    first, last = whole_percent(chance.first_event), whole_percent(chance.last_event)
    band = _band_of(first, chance.first_event_low, chance.first_event_high)
    if first == last:
        return band
    its_own = _band_of(last, chance.last_event_low, chance.last_event_high)
    return "; ".join(
        each
        for each in (band, ", ".join(filter(None, (say("the last {chance}", chance=last), its_own))))
        if each
    )


def _band_of(said: str, low: float | None, high: float | None) -> str:
    """The band in words, where whole per cents say more; sheets from before there was one have none."""
    if low is None or high is None or (band := percent_band(low, high)) in said:
        return ""
    return say("likely {band}", band=band)


def _dates(option: Option, language: str) -> Answers:
    ready = option.ready
    dates = {"ready": ready.p80, "ready_even": ready.typical, "ready_sure": ready.p90}
    return {code: AnswerCell(day(on, language), value=on) for code, on in dates.items()}


def _goes(shares: tuple[HazardShare, ...]) -> AnswerCell:
    """The likeliest single cause of a stop, as cases in a hundred; what is lumped together is no cause."""
    known = [share for share in shares if not is_the_rest(share)]
    worst = max(known, key=lambda share: share.stops_in_100, default=None)
    return AnswerCell(inside(plain_name(worst.name)), risk_in_words(worst.stops_in_100)) if worst else EMPTY


def _locks(lock: WheelLock) -> AnswerCell:
    within = say("within our ceiling of {ceiling}", ceiling=whole_percent(lock.ceiling))
    past = say("past our ceiling of {ceiling}", ceiling=whole_percent(lock.ceiling))
    likely = "" if lock.low is None or lock.high is None else f"{risk_band(lock.low, lock.high)}; "
    return AnswerCell(risk_in_words(lock.value * 100), f"{likely}{within if lock.met else past}")


def _good_for(service: Service, reason: str) -> AnswerCell:
    said = first_large(plain_name(reason))
    if service.amount < 1:
        return AnswerCell(say("due now"), said)
    return AnswerCell(estimate_in_words(service.amount, service.unit), said)


def _opened(option: Option) -> AnswerCell:
    if not option.openings:
        return AnswerCell(say("no"))
    count = len(option.openings)
    if count > TOLD:
        return AnswerCell(
            say("yes, {count} times", count=count),
            say("the first at {amount}", amount=_at(option.openings[0])),
        )
    return AnswerCell(say("yes, at {amounts}", amounts=listed([_at(opening) for opening in option.openings])))


def _at(opening: Opening) -> str:
    return estimate_in_words(opening.amount, opening.unit)


def _due(due: Due, comparison: Comparison) -> AnswerCell:
    """The part that runs out first: inside the season that this customer plans, or after how many like it."""
    if due.amount < 1:
        return AnswerCell(inside(plain_name(due.name)), say("now"))
    amount = estimate_in_words(due.amount, due.unit)
    seasons = due.amount / comparison.planned.amount
    when = say("{amount}, within your season", amount=amount)
    if seasons >= 1:
        when = say("{amount}, {seasons} of your seasons", amount=amount, seasons=say_figure(seasons, 1))
    return AnswerCell(inside(plain_name(due.name)), when)


def _power(option: Option) -> AnswerCell:
    gain = option.power_gain_pct
    if round(gain.typical) < 1:
        return AnswerCell(
            say("as new"), _measured(option.tune_figures.power if option.tune_figures else None)
        )
    band = say("{low} to {high}, expected", low=f"{gain.low:.0f}", high=f"{gain.high:.0f}{NO_BREAK}%")
    return AnswerCell(say("{gain} power", gain=f"+{gain.typical:.0f}{NO_BREAK}%"), band)


def _measured(power: PowerBand | None) -> str:
    """What a dyno read in that very tune; empty where it is an estimate."""
    if power is None or power.kind != "measured":
        return ""
    return say("{power}, measured", power=power_at_its_peak(power))


def _class(option: Option, class_name: str) -> AnswerCell:
    if option.breaks_class:
        return AnswerCell(say("no"), say("its {parts}", parts=listed(option.breaks_class)))
    return AnswerCell(say("yes"), class_name) if class_name else EMPTY
