"""What bodies radiate, where a window turns opaque, and where CO2 takes radiation up."""

from math import isinf, log10

from kit.analysis.planet import Spectra
from kit.charts import draw
from kit.charts.drawing import CONTROL, DIFFERENCE, line, Panel, QUIET, remark, sheet, TREATED, upright

LINES = ((CONTROL, "solid"), (TREATED, "dash"), (DIFFERENCE, "dot"), (QUIET, "dashdot"))
TICKS = [0.2, 0.5, 1, 2, 5, 10, 20, 50, 100]


@draw.register
def spectra_chart(spectra: Spectra):
    """Each curve over its own highest value, so that hot and warm fit one chart; bands and window edges as upright stripes with names."""
    looks = [(source, *LINES[at % len(LINES)]) for at, source in enumerate(spectra.sources)]
    names = [_name(source, color) for source, color, _ in looks]
    stripes, labels = _bands(spectra)
    xaxis = {"type": "log", "tickvals": TICKS, "range": [log10(0.2), 2]}
    panel = Panel(
        [line(spectra.wavelengths_um, source.curve, color, dash=dash) for source, color, dash in looks],
        x="wavelength (µm), stretched at the short end",
        y="power for each µm, highest = 1",
        marks=stripes,
        notes=names + labels,
        xaxis=xaxis,
        yaxis={"range": [0, 1.3]},
    )
    return sheet(panel, title="What the sources radiate", said=str(spectra))


def _name(source, color):
    return remark(f"{source.name}, {source.kelvin:g} K", log10(source.peak_um), 1.06, color, xanchor="center")


def _bands(spectra):
    """Stripes where CO2 takes radiation up, and the window between its two edges."""
    stripes = [upright(*edges) for edges in spectra.bands_um.values()]
    labels = [remark(f"CO2 {name}", log10(high), 1.28, QUIET, textangle=-90, yanchor="top") for name, (_, high) in spectra.bands_um.items()]
    low, high = spectra.window_um
    if isinf(high):
        return stripes, labels
    edge = remark(f"{spectra.window} turns opaque from here", log10(low), 0.08, DIFFERENCE)
    window = [upright(*edges, color=DIFFERENCE) for edges in ((low, high), (low,), (high,))]
    return [*stripes, *window], [*labels, edge]
