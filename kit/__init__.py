"""Twin Vessels: a curriculum kit for the paired warming experiment.

`from kit import read_run, mark_windows, paired_effect, ...` gives the public names below. Each is loaded when it is first
asked for, so that `import kit` costs next to nothing.
"""

from importlib import import_module

HOME = {
    "Estimate": "kit.estimate",
    "Fault": "kit.faults",
    "IntakeFault": "kit.faults",
    "Run": "kit.records.run",
    "Windows": "kit.records.windows",
    "read_run": "kit.records.intake",
    "example_run": "kit.records.examples",
    "example_class": "kit.records.examples",
    "reference_run": "kit.records.examples",
    "read_class": "kit.records.classfolder",
    "suggest_windows": "kit.analysis.suggestion",
    "paired_effect": "kit.analysis.effect",
    "naive_effect": "kit.analysis.naive",
    "check_steady": "kit.analysis.steadiness",
    "fit_warming": "kit.analysis.curve",
    "compare": "kit.analysis.comparison",
    "class_effect": "kit.analysis.pooling",
    "calibrate": "kit.analysis.thermometers",
    "plan_run": "kit.analysis.planning",
    "possible_causes": "kit.analysis.causes",
    "gas_dose": "kit.analysis.dosing",
    "simulate_run": "kit.bench.simulation",
    "reveal": "kit.bench.simulation",
    "chart": "kit.charts",
    "mark_windows": "kit.widgets.marker",
    "watch": "kit.widgets.watching",
    "predict": "kit.widgets.cards",
    "recall": "kit.widgets.cards",
    "after": "kit.widgets.cards",
    "quiz": "kit.widgets.cards",
    "note": "kit.widgets.cards",
    "bring_in": "kit.widgets.intake",
    "hand_sheet": "kit.widgets.intake",
    "follow": "kit.widgets.live",
    "follow_serial": "kit.widgets.live",
}
__all__ = sorted(HOME)


def __getattr__(name):
    if name not in HOME:
        raise AttributeError(f"kit has no {name!r}. It has: {', '.join(__all__)}.")
    thing = getattr(import_module(HOME[name]), name)
    globals()[name] = thing
    return thing


def __dir__():
    return __all__
