"""The last page of lesson 00: what CO2 did, what argon did, and what CO2 did under film, as three bars on one axis."""

from kit.analysis.effect import paired_effect
from kit.examples import example_run
from kit.records import Windows
from kit.widgets.watching.effectview import bar, Shown
from kit.words import listed

RUNS = {"CO2": "basalt", "argon": "marble-argon", "CO2, then film over both": "basalt-covered"}
WINDOWS = Windows.of_perturbation(11)
SAME = "All three runs have the same plan and the same windows: gas at minute 11, read ten minutes later. They are simulated."


def three_bars():
    """A view of three effects: of CO2, of argon (which takes up no infrared), and of CO2 with both mouths covered after the filling."""
    return Shown(shown=told_side_by_side(three_effects()))


def three_effects():
    """{what was done: its `Effect`}, each from a bundled run with the same windows."""
    return {done: paired_effect(example_run(name), WINDOWS) for done, name in RUNS.items()}


def told_side_by_side(effects):
    """Some effects by name, as plain words and numbers for the browser."""
    values = listed(f"{effect.warming.value_text} ({done})" for done, effect in effects.items())
    ranges = "; ".join(f"{done}: {effect.warming.text}" for done, effect in effects.items())
    holds = [(f"{done}, holds if", effect.condition) for done, effect in effects.items()]
    return {
        "name": "Three runs side by side",
        "sentence": f"More than their controls, the treated vessels warmed by {values}.",
        "parts": SAME,
        "bars": [bar(f"{done}:", effect.warming) for done, effect in effects.items()],
        "picture": f"{len(effects)} bars on one axis. {ranges}.",
        "verdict": "",
        "reason": "",
        "condition": "",
        "cautions": [],
        "rows": [*((done, effect.warming.text) for done, effect in effects.items()), *holds],
        "line": "\n".join(f'paired_effect(example_run("{name}"), Windows.of_perturbation(11))' for name in RUNS.values()),
        "windows": f"The windows: {WINDOWS}",
    }
