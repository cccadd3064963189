"""`chart(thing)`: one plotly figure for every result. A chart computes nothing: words and digits come from the result."""

from functools import singledispatch
from importlib import import_module

from kit.faults import Fault

__all__ = ["chart", "draw", "headless", "marked_run"]

BARE_TOP = 28  # pixels above a chart without its heading: for the headings of panels, and words at an axis' end

# The module that draws each kind of thing; loaded when the first of its kind is drawn.
DRAWN_IN = {
    "Run": "kit.charts.run",
    "ClassRuns": "kit.charts.pooling",
    "Effect": "kit.charts.effect",
    "NaiveEffect": "kit.charts.naive",
    "Steadiness": "kit.charts.steadiness",
    "WarmingCurve": "kit.charts.curve",
    "Comparison": "kit.charts.comparison",
    "ClassEffect": "kit.charts.pooling",
    "Calibration": "kit.charts.calibration",
    "Plan": "kit.charts.plan",
    "GasDose": "kit.charts.dose",
    "GasTable": "kit.charts.gastable",
    "CauseBudget": "kit.charts.causes",
    "WeighedCauses": "kit.charts.causes",
    "Spectra": "kit.charts.spectra",
    "BoilingPoint": "kit.charts.boiling",
    "PlanetBalance": "kit.charts.planetary",
    "PlanetWarming": "kit.charts.planetary",
    "Co2Record": "kit.charts.co2record",
    "ConceptCheck": "kit.charts.concepts",
}


@singledispatch
def draw(thing):
    """Draw one kind of result. Each chart module registers its own."""
    raise Fault(f"There is no chart for {type(thing).__name__}. Charts exist for: {', '.join(DRAWN_IN)}.")


def chart(thing):
    """A plotly figure of a run or a result; axes carry units, and uncertainty is always drawn. A Fault for anything else."""
    if type(thing).__name__ in DRAWN_IN:
        import_module(DRAWN_IN[type(thing).__name__])
    return draw(thing)


def headless(figure):
    """(title, sentence, figure without them): for a page that writes them itself and can wrap them. ('', '', it) if not by `sheet`."""
    if not figure.layout.meta:
        return "", "", figure
    bare, room = type(figure)(figure), figure.layout.margin.t - BARE_TOP
    bare.update_layout(title={"text": "", "subtitle": {"text": ""}}, height=figure.layout.height - room, margin={"t": BARE_TOP})
    return figure.layout.meta["title"], figure.layout.meta["said"], bare


def marked_run(run, windows):
    """The chart of a run with its windows as bands behind the lines: B, P and R."""
    from kit.charts.run import run_chart

    return run_chart(run, windows)
