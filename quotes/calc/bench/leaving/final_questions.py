"""What is asked before an engine leaves, and which of it may not stay without an answer."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal, get_args

from catalogue.calc.said import say, to_say
from quotes.calc.ask.request import Value

Said = Literal["yes", "no", "not_on_it", ""]
SAID: tuple[Said, ...] = get_args(Said)
IN_WORDS: dict[Said, str] = {
    "yes": to_say("yes"),
    "no": to_say("no"),
    "not_on_it": to_say("not on this engine"),
    "": to_say("not looked at"),
}


@dataclass(frozen=True, slots=True)
class Question:
    """One question, put so that yes is good. `rider_safety`: no answer, and no engine leaves."""

    code: str
    words: str
    rider_safety: bool = False


QUESTIONS: tuple[Question, ...] = (
    Question("leaks", to_say("Dry all round after it was run hot: oil, water, fuel?"), rider_safety=True),
    Question("drain_plug", to_say("Drain plug tight, with a new washer?"), rider_safety=True),
    Question("oil_filter", to_say("Oil filter tight and dry?"), rider_safety=True),
    Question(
        "lockwire",
        to_say("Lockwire on plugs, filter and filler where the rules ask for it?"),
        rider_safety=True,
    ),
    Question(
        "oil_level", to_say("Oil level by the glass or the stick, after it has run?"), rider_safety=True
    ),
    Question("covers", to_say("Covers, sprocket and its lock washer tight?"), rider_safety=True),
    Question("gears", to_say("All gears and neutral found, clutch frees?"), rider_safety=True),
    Question("timing_marks", to_say("Cam timing marks looked at by a second person?")),
    Question("turned_by_hand", to_say("Turned over twice by hand without touching?")),
    Question("coolant", to_say("Coolant filled and bled, cap on?")),
    Question("hot_pressure", to_say("Oil pressure hot as it should be?")),
    Question("tools", to_say("No rag, plug or tool left in a port or an opening?")),
    Question("marks", to_say("Numbers and case marks those of the intake?")),
    Question("all_of_it", to_say("All that came with it laid ready to go back?")),
)


class Answer(Value):
    """What was asked, what was answered, and what was said with it."""

    code: str
    words: str
    said: Said = ""
    note: str = ""
    rider_safety: bool = False

    @property
    def in_words(self) -> str:
        return say(IN_WORDS[self.said])


def answered(said: Mapping[str, Said], notes: Mapping[str, str]) -> tuple[Answer, ...]:
    """The whole list with the answers that were given."""
    return tuple(
        Answer(
            code=one.code,
            words=one.words,
            said=said.get(one.code, ""),
            note=notes.get(one.code, "").strip(),
            rider_safety=one.rider_safety,
        )
        for one in QUESTIONS
    )


def faults(answers: Iterable[Answer]) -> dict[str, str]:
    """Why the engine can't leave as it is, by question.

    A no to rider safety is mended, not noted; any other no says what is the matter.
    """
    found = {}
    for one in answers:
        if one.said not in SAID:
            found[one.code] = say("“{said}” is none of: yes, no, not on this engine.", said=one.said)
        elif one.rider_safety and not one.said:
            found[one.code] = say(
                "Not answered: this bears on the rider's safety, so it is looked at before it leaves."
            )
        elif one.rider_safety and one.said == "no":
            found[one.code] = say("No: this bears on the rider's safety. Mend it, and look again.")
        elif one.said == "no" and not one.note:
            found[one.code] = say("No, and nothing is said with it: write what is the matter.")
    return found
