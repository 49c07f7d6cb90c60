"""A straight scale from values to places on a drawing, with round steps."""

from __future__ import annotations

import math
from dataclasses import dataclass

_ROUND = (1.0, 2.0, 2.5, 5.0, 10.0)


@dataclass(frozen=True, slots=True)
class Scale:
    """From `least` at `start` to `most` at `stop`, a mark every `step`."""

    least: float
    most: float
    start: float
    stop: float
    step: float

    def at(self, value: float) -> float:
        return self.start + (value - self.least) / (self.most - self.least) * (self.stop - self.start)

    def marks(self) -> tuple[float, ...]:
        count = math.floor((self.most - self.least) / self.step + 1e-9)
        return tuple(self.least + self.step * index for index in range(count + 1))


def money_scale(most: float, start: float, stop: float, marks: int) -> Scale:
    """Money from nothing to a little more than `most`, with at most `marks` steps."""
    reach = max(most, 1.0) * 1.04
    power = 10.0 ** math.floor(math.log10(reach / marks))
    step = next(power * figure for figure in _ROUND if power * figure * marks >= reach)
    return Scale(0.0, reach, start, stop, step)


def seasons_scale(least: float, start: float, stop: float) -> Scale:
    """Seasons finished, up to 20 and down to a round number below `least`, over a range of four or more."""
    room = max(min(least, 16.0) - 0.2, 0.0)
    step = 1 if room >= 15 else 2 if room >= 10 else 5
    return Scale(math.floor(room / step) * float(step), 20.0, start, stop, float(step))
