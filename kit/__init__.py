"""Twin Vessels: a curriculum kit for the paired warming experiment.

`from kit import read_run, mark_windows, paired_effect, ...` gives the public names below. Each is loaded when it is first
asked for, so that `import kit` costs next to nothing.
"""

from importlib import import_module

HOME = {
    "Estimate": "kit.estimate",
    "Fault": "kit.faults",
    "IntakeFault": "kit.faults",
    "Run": "kit.records",
    "Windows": "kit.records",
    "read_run": "kit.intake",
    "example_run": "kit.examples",
    "example_class": "kit.examples",
    "reference_run": "kit.examples",
    "read_class": "kit.intake.classes",
    "suggest_windows": "kit.analysis.effect",
    "paired_effect": "kit.analysis.effect",
    "naive_effect": "kit.analysis.effect",
    "check_steady": "kit.analysis.steady",
    "fit_warming": "kit.analysis.curve",
    "compare": "kit.analysis.comparison",
    "class_effect": "kit.analysis.classes",
    "concept_check": "kit.analysis.concepts",
    "calibrate": "kit.analysis.thermometers",
    "plan_run": "kit.analysis.planning",
    "possible_causes": "kit.analysis.causes",
    "weigh_causes": "kit.analysis.causes",
    "runs_that_separate": "kit.analysis.causes",
    "band_share": "kit.analysis.planet",
    "bench_card": "kit.analysis.planning",
    "radiation_curves": "kit.analysis.planet",
    "planet_balance": "kit.analysis.planet",
    "planet_warming": "kit.analysis.planet",
    "forcing": "kit.analysis.planet",
    "co2_record": "kit.analysis.planet",
    "carries_over": "kit.analysis.planet",
    "gas_dose": "kit.analysis.planning",
    "simulate_run": "kit.bench",
    "reveal": "kit.bench",
    "chart": "kit.charts",
    "make_report": "kit.report",
    "open_report": "kit.report",
    "hand_in": "kit.report",
    "class_desk": "kit.desk",
    "settings_card": "kit.widgets.classroom",
    "look_at_hand_in": "kit.report",
    "mark_windows": "kit.widgets.marker",
    "watch": "kit.widgets.watching",
    "three_bars": "kit.widgets.watching",
    "filling_view": "kit.widgets.filling",
    "probes_view": "kit.widgets.probes",
    "steady_view": "kit.widgets.steady",
    "replay": "kit.widgets.steady",
    "reading_view": "kit.widgets.reading",
    "repeats_view": "kit.widgets.repeats",
    "board_view": "kit.widgets.board",
    "budget_view": "kit.widgets.budget",
    "choose_class": "kit.widgets.board",
    "planet_view": "kit.widgets.planet",
    "co2_view": "kit.widgets.airrecord",
    "sorting_view": "kit.widgets.carryover",
    "lay_chips": "kit.widgets.causes",
    "spend_runs": "kit.widgets.causes",
    "inside_view": "kit.widgets.inside",
    "simulated_bench": "kit.widgets.simulated",
    "compare_view": "kit.widgets.compare",
    "against_reference": "kit.widgets.compare",
    "rising_view": "kit.widgets.rising",
    "glass_view": "kit.widgets.kitchen",
    "energy_view": "kit.widgets.energy",
    "spectrum_view": "kit.widgets.spectrum",
    "contents": "kit.coursework",
    "predict": "kit.widgets.cards",
    "recall": "kit.widgets.cards",
    "after": "kit.widgets.cards",
    "quiz": "kit.widgets.cards",
    "note": "kit.widgets.cards",
    "choose_run": "kit.widgets.ownrun",
    "claim_view": "kit.widgets.writeup",
    "rubric": "kit.widgets.writeup",
    "report_card": "kit.widgets.writeup",
    "hand_in_card": "kit.widgets.writeup",
    "own_run": "kit.widgets.ownrun",
    "bring_in": "kit.widgets.intake",
    "hand_sheet": "kit.widgets.intake",
    "follow": "kit.widgets.live",
    "follow_serial": "kit.widgets.live",
}
__all__ = sorted(HOME)


def __getattr__(name):
    if name not in HOME:
        raise AttributeError("kit has no %r. It has: %s." % (name, ", ".join(__all__)))  # so that Python 2 can read this, too
    thing = import_module("kit.calling").answering(getattr(import_module(HOME[name]), name))
    globals()[name] = thing
    return thing


def __dir__():
    return __all__
