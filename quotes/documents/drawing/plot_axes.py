"""Where ages and shares lie on a probability plot, in its two sizes."""

from __future__ import annotations

from dataclasses import dataclass

from quotes.calc.learning.plot import ProbabilityPlot, across, upright
from quotes.documents.drawing.tracks import FormName


@dataclass(frozen=True, slots=True)
class Form:
    """Sizes in drawing units; the plot lies between `left`, `right`, `top` and `bottom`."""

    name: FormName
    width: float
    left: float
    right: float
    top: float
    bottom: float
    letter: float


FORMS: dict[FormName, Form] = {
    "wide": Form("wide", 560, left=52, right=548, top=40, bottom=330, letter=12),
    "narrow": Form("narrow", 340, left=46, right=332, top=42, bottom=320, letter=13),
}


@dataclass(frozen=True, slots=True)
class Axes:
    """From ages (reference service) and shares failed (0 to 1) to places in drawing units."""

    plot: ProbabilityPlot
    form: Form

    def x(self, age: float) -> float:
        least, most = (across(each) for each in self.plot.ages)
        at = (across(min(max(age, self.plot.ages[0]), self.plot.ages[1])) - least) / (most - least)
        return self.form.left + at * (self.form.right - self.form.left)

    def y(self, share: float) -> float:
        least, most = (upright(each) for each in self.plot.shares)
        at = (upright(min(max(share, self.plot.shares[0]), self.plot.shares[1])) - least) / (most - least)
        return self.form.bottom - at * (self.form.bottom - self.form.top)
