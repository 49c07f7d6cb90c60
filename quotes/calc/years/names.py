"""Names for thousands of customers, put together from syllables: every one is invented."""

from __future__ import annotations

from dataclasses import dataclass

from quotes.calc.years.mixed import one_of

FIRST = (
    "Ada", "Bero", "Calla", "Dorin", "Elske", "Fenn", "Gerlo", "Hanne", "Ivo", "Jorun", "Kester", "Liv",
    "Marel", "Noor", "Oskar", "Perrin", "Quilla", "Rasmus", "Sunniva", "Tobin", "Ulla", "Veit", "Wim",
    "Ylva", "Zeno", "Ärla", "Bjarke", "Célie", "Désir", "Łuka",
)  # fmt: skip
BEGIN = (
    "Al", "Bran", "Cor", "Dun", "El", "Fal", "Gor", "Hal", "Ist", "Jel", "Kor", "Lam", "Mor", "Nel", "Or",
    "Pel", "Quen", "Ros", "Sel", "Tam", "Ur", "Var", "Wes", "Yar", "Zel", "Ös", "Müh", "Bré", "Håk", "Siś",
)  # fmt: skip
MIDDLE = ("a", "e", "i", "o", "u", "ar", "en", "in", "os", "ul")
END = (
    "bell", "croft", "dal", "fen", "gard", "holt", "kin", "lund", "mark", "ner", "quist", "rup", "sett",
    "tvedt", "vik", "wold", "yard", "ström", "bøl", "ský",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who does not exist."""

    name: str
    telephone: str
    email: str


def person(seed: int, index: int) -> Person:
    """The customer of that index; no two have one telephone or one address of mail."""
    first = one_of(FIRST, seed, index, 1)
    last = one_of(BEGIN, seed, index, 2) + one_of(MIDDLE, seed, index, 3) + one_of(END, seed, index, 4)
    return Person(
        name=f"{first} {last}", telephone=f"+00 555 {index:07}", email=f"customer{index}@mail.example"
    )


def engine_number(seed: int, index: int) -> str:
    """A number as it is stamped on a case, of that engine alone."""
    letters = one_of("ABCDEFGHKLMNPRST", seed, index, 5) + one_of("AEKNRSX", seed, index, 6)
    return f"{letters}{index // 1000:03}-{index % 1000:03}{one_of('ABCDEFGH', seed, index, 7)}"
