"""Drawings with their tables, from the plain values that a page holds."""

from __future__ import annotations

from django import template

from quotes.calc.learning.plot import ProbabilityPlot
from quotes.documents.plot_figure import PlotFigure, plot_figure

register = template.Library()


@register.inclusion_tag("quotes/probability_plot.html")
def probability_plot(plot: ProbabilityPlot) -> dict[str, PlotFigure]:
    """The plot of one life's evidence, with its numbers beside it."""
    return {"figure": plot_figure(plot)}
