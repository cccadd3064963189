"""Two thermometers in one beaker, and the effect of a run read with them: a shift drops out, a scale does not, light warms the probe itself."""

from dataclasses import replace
from functools import cache, partial

import numpy as np

from kit.analysis.effect import difference_levels, paired_effect
from kit.analysis.thermometers import boiling_point
from kit.examples import example_run
from kit.physics import contents_of, Setting
from kit.records import Windows
from kit.units import difference, reading, stated, temperature
from kit.widgets.cards import Numbers
from kit.widgets.shared import LOOK, Grip, Pick, View, line, rows, script, sheet

HELP = "Drag the two sliders, choose the display, and let light fall on the probes. Arrow keys work, too."
BEAKER_C = 24.0
STEPS = {"fine": 0.01, "tenth": 0.1, "whole": 1.0}
LIT = {"none": (0, 0), "treated": (1, 0), "both": (1, 1)}  # which of treated and control
EXCESS_K = Setting().probe_k  # how far the lamp of the usual bench alone keeps a probe above the air around it
IN_CO2 = contents_of("CO2").probe_gain  # times as far in pure CO2, which carries less heat away from it
GRIPS = [
    Grip("shift", "treated probe: shift", -1, 1, 0, step=0.1, unit="°C"),
    Grip("scale", "treated probe: scale off by", -5, 5, 0, step=0.5, unit="%"),
    Pick("display", "Both show steps of", {"fine": "{c:0.01}", "tenth": "{c:0.1}", "whole": "{c:1}"}, "fine"),
    Pick("light", "The lamp shines on", {"none": "neither probe", "treated": "the treated one", "both": "both"}, "none"),
]
BASALT = Windows((10, 11), (11, 12), (20.5, 21.5))


def probes_view(run, windows):
    """The view of lesson 03: faults of the treated probe, display and light under the hand; beaker and effect of `run` answer."""
    return ProbesView("Two thermometers", GRIPS, partial(answer, run, windows), help=HELP)


class ProbesView(View):
    """A beaker with two probes, the difference that they show in a run, and the run's effect. Made by `probes_view`."""

    _esm, _css = script("probes/probes"), sheet(*LOOK, "probes/probes")

    def numbers(self):
        """What the lesson's cards ask, of group Basalt."""
        return of_basalt()


def answer(run, windows, shift, scale, *, display="fine", light="none"):
    """What both probes show in the beaker, and the effect of `run` as they would have read it."""
    told = {"shift": shift, "scale": scale, "display": display, "light": light}
    seen, before = read_with(run, windows, **told), _effect(run, windows)
    found, shown = paired_effect(seen, windows), in_beaker(**told)
    apart = difference(abs(shown[0] - shown[1]), 2)
    return {
        "sentence": f"{_beside(*shown)} With such probes the effect is {found.warming.text}; as it was read it is {before.value_text}.",
        "numbers": [("apart in the beaker", apart), ("effect of the run", found.warming.text)],
        "picture": f"One beaker, two probes. The treated one shows {_text(shown[0], display)}, the control {_text(shown[1], display)}. "
        f"The lamp shines on {dict(GRIPS[3].options)[light]}.",
        "table": _table(run, windows),
        "shown": [_text(each, display) for each in shown],
        "lit": list(LIT[light]),
        "line": line(seen.minutes, seen.difference().to_numpy(float), "difference", "difference"),
        "stretches": [{"from": start, "to": end, "name": name} for name, (start, end) in (("before", windows.baseline), ("after", windows.response))],
        "effect": _dot(found.warming, before),
    }


def _beside(treated, control):
    gap = treated - control
    if abs(gap) < 0.005:
        return "In one beaker both show the same."
    return f"In one beaker the treated probe shows {difference(abs(gap), 2)} {'more' if gap > 0 else 'less'} than the control."


def in_beaker(*, shift, scale, display, light):
    """(treated, control) in °C: what both probes show in a beaker of air at 24 °C."""
    lit = np.array(LIT[light]) * EXCESS_K
    treated, control = BEAKER_C + lit
    return tuple(_stepped(np.array([_faulty(treated, shift, scale), control]), display))


def read_with(run, windows, *, shift, scale, display="fine", light="none"):
    """`run` as such probes would have read it. A lit probe stands above the gas around it, further once that is CO2."""
    gas = np.clip((run.minutes - windows.perturbation[0]) / (windows.perturbation[1] - windows.perturbation[0]), 0, 1)
    above = EXCESS_K * (1 + (IN_CO2 - 1) * gas), EXCESS_K
    readings = run.readings.copy()
    for name, lit, excess in zip(("treated", "control"), LIT[light], above):
        readings[name] += lit * excess
    readings["treated"] = _faulty(readings["treated"], shift, scale)
    for name in ("treated", "control"):
        readings[name] = _stepped(readings[name], display)
    return replace(run, readings=readings)


def _faulty(true_c, shift, scale):
    return true_c * (1 + scale / 100) + shift


def _stepped(values, display):
    return np.round(values / STEPS[display]) * STEPS[display]


def _text(value, display):
    return temperature(value, {"fine": 2, "tenth": 1, "whole": 0}[display])


@cache
def _effect(run, windows):
    return paired_effect(run, windows).warming


def _dot(found, before):
    low, high = (each if np.isfinite(each) else found.value for each in (found.low, found.high))
    dot = {"x": 0.5, "y": found.value, "low": low, "high": high, "look": "difference", "name": ""}
    reach = [min(low, before.low) - 0.15, max(high, before.high) + 0.15]
    return {"dots": [dot], "levels": [{"y": before.value, "name": "as it was read"}], "span": reach}


@cache
def _table(run, windows):
    faults = [
        ("none", {}), (f"shift of {stated(0.5)}", {"shift": 0.5}), ("scale off by 1 %", {"scale": 1}), (f"steps of {stated(0.1)}", {"display": "tenth"}),
        ("light on the treated one", {"light": "treated"}), ("light on both", {"light": "both"}),
    ]  # fmt: skip
    found = [paired_effect(read_with(run, windows, **{"shift": 0, "scale": 0, **fault}), windows).warming for _, fault in faults]
    return rows("One fault at a time", ["fault", "effect"], [[name, each.text] for (name, _), each in zip(faults, found)])


@cache
def of_basalt():
    """`Numbers` for the cards: Basalt's effect with a shift, with a scale, with light; and where water boils."""
    run = example_run("basalt")
    good, shifted = (paired_effect(read_with(run, BASALT, shift=shift, scale=0), BASALT).warming for shift in (0, 0.5))
    moved = shifted.value - good.value
    before, after = (run.readings["treated"].loc[60 * start : 60 * end].mean() for start, end in (BASALT.baseline, BASALT.response))
    lit = paired_effect(read_with(run, BASALT, shift=0, scale=0, light="both"), BASALT).warming
    boils, sea = (boiling_point(altitude_m=height).temperature for height in (1000, 0))
    shown = in_beaker(shift=0, scale=0, display="fine", light="treated")
    texts = {
        "effect": good.text, "shifted": shifted.text, "excess": difference(EXCESS_K, 1), "lit": lit.text,
        "treated_change": difference(after - before, 1), "one_percent": difference((after - before) / 100, 2),
        "of_reading": difference(after / 100, 1), "boils": boils.value_text, "boils_range": boils.range,
        "sea": sea.value_text, "below": difference(sea.value - boils.value, 1), "display": reading(23.47), "step": stated(STEPS["fine"]),
    }  # fmt: skip
    return Numbers({"shift": "same" if abs(moved) < 0.02 else "more" if moved > 0 else "less", "light": "itself" if shown[0] > shown[1] else "same"}, texts)
