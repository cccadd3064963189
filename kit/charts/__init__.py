"""`chart(thing)`: one plotly figure for every result. A chart computes nothing: words and digits come from the result."""

from functools import singledispatch
from importlib import import_module

from kit.faults import Fault

__all__ = ["chart", "draw", "headless", "marked_run"]

BARE_TOP = 28  # pixels above a chart without its heading: for the headings of panels, and words at an axis' end

# The module that draws each kind of thing; loaded when the first of its kind is drawn.
DRAWN_IN = {
    "Run": "kit.charts.runs.run",
    "ClassRuns": "kit.charts.classes.pooling",
    "Effect": "kit.charts.runs.effect",
    "NaiveEffect": "kit.charts.runs.naive",
    "Steadiness": "kit.charts.runs.steadiness",
    "WarmingCurve": "kit.charts.runs.curve",
    "Comparison": "kit.charts.runs.comparison",
    "ClassEffect": "kit.charts.classes.pooling",
    "Calibration": "kit.charts.planning.calibration",
    "Plan": "kit.charts.planning.plan",
    "GasDose": "kit.charts.planning.dose",
    "GasTable": "kit.charts.physics.gastable",
    "CauseBudget": "kit.charts.physics.causes",
    "WeighedCauses": "kit.charts.physics.causes",
    "Spectra": "kit.charts.physics.spectra",
    "BoilingPoint": "kit.charts.planning.boiling",
    "PlanetBalance": "kit.charts.physics.planetary",
    "PlanetWarming": "kit.charts.physics.planetary",
    "Co2Record": "kit.charts.physics.co2record",
    "ConceptCheck": "kit.charts.classes.concepts",
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
    from kit.charts.runs import run_chart

    return run_chart(run, windows)
