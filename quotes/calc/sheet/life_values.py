"""Values of the sheet: how much of its life each component has used, before the planned service and after."""

from __future__ import annotations

from typing import Literal

from quotes.calc.ask.request import Value

Fate = Literal["left", "reconditioned", "renewed"]


class LifeBar(Value):
    """One component of one way of building. Shares are of its planned life: above 1 is past its end."""

    component: str
    name: str
    at_start: float
    """Used when the planned service begins, after what is renewed."""
    at_end: float
    """Used when the planned service ends, or at the first opening on the way."""
    fate: Fate = "left"
    known: bool = True
    """False where its age had to be guessed."""
    measured: bool = False
    """Whether a reading moved its age."""

    @property
    def services_left(self) -> float:
        """Planned services until its life is used up; 0 where it is already."""
        if self.at_start >= 1.0:
            return 0.0
        worn = self.at_end - self.at_start
        return (1.0 - self.at_start) / worn if worn > 0 else float("inf")
