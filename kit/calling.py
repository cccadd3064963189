"""A public verb called without what it needs, or with a keyword it lacks, answers with a Fault and an example line."""

from difflib import get_close_matches
from functools import wraps
from inspect import isfunction, Parameter, signature

from kit.faults import Fault
from kit.words import listed

EXAMPLES = {
    "read_run": 'read_run("run.csv")',
    "example_run": 'example_run("basalt")',
    "example_class": "example_class()",
    "reference_run": "reference_run()",
    "read_class": 'read_class("class-folder")',
    "suggest_windows": "suggest_windows(run)",
    "paired_effect": "paired_effect(run, marker.windows)",
    "naive_effect": "naive_effect(run, marker.windows)",
    "check_steady": "check_steady(run, over_min=10, tolerance_c_per_min=0.01)",
    "fit_warming": "fit_warming(run, marker.windows)",
    "compare": "compare(mine, reference, margin=0.3)",
    "class_effect": "class_effect(runs)",
    "concept_check": 'concept_check("concept-check.csv")',
    "calibrate": "calibrate(readings)",
    "plan_run": "plan_run(half_width_c=0.2)",
    "possible_causes": "possible_causes(effect)",
    "bench_card": "bench_card(gas_dose(tablets=4), read_min=10)",
    "gas_dose": "gas_dose(tablets=4, vessel_l=1.5)",
    "simulate_run": "simulate_run(seed=1)",
    "reveal": "reveal(run)",
    "chart": "chart(run)",
    "mark_windows": "marker = mark_windows(run)",
    "watch": "watch(marker)",
    "three_bars": "three_bars()",
    "contents": "contents()",
    "filling_view": "filling_view()",
    "probes_view": "probes_view(run, marker.windows)",
    "steady_view": "steady_view(run)",
    "replay": 'replay("basalt", times=10)',
    "reading_view": "reading_view()",
    "repeats_view": "repeats_view(setup=True)",
    "board_view": "board_view(truth=True)",
    "budget_view": "budget_view(paired_effect(run, windows))",
    "choose_class": 'card = choose_class("09.class")',
    "planet_view": "planet_view()",
    "co2_view": "co2_view()",
    "sorting_view": "sorting_view()",
    "lay_chips": 'lay_chips("10")',
    "spend_runs": 'runs = spend_runs("10", chips_step=3)',
    "inside_view": "inside_view()",
    "simulated_bench": "bench = simulated_bench()",
    "compare_view": "compare_view()",
    "against_reference": "against_reference(run)",
    "rising_view": "rising_view()",
    "glass_view": "glass_view()",
    "energy_view": "energy_view()",
    "spectrum_view": "spectrum_view()",
    "band_share": "band_share(2700, 2.7, 100)",
    "weigh_causes": 'weigh_causes({"gas": effect, "covered": covered_effect})',
    "runs_that_separate": 'runs_that_separate("md")',
    "radiation_curves": 'radiation_curves({"filament": 2700})',
    "planet_balance": "planet_balance(albedo=0.3)",
    "planet_warming": "planet_warming(556)",
    "forcing": "forcing(400, 278)",
    "co2_record": "co2_record()",
    "carries_over": "carries_over()",
    "predict": 'predict("warmer")',
    "recall": 'recall("warmer")',
    "claim_view": "claim_view()",
    "rubric": 'rubric("12")',
    "report_card": "report_card()",
    "own_run": "own = own_run()",
    "choose_run": 'card = choose_run("00.basalt")',
    "make_report": "make_report()",
    "open_report": 'open_report("report.zip")',
    "hand_in": 'hand_in("Basalt")',
    "class_desk": "desk = class_desk()",
    "settings_card": "settings_card()",
    "look_at_hand_in": "look_at_hand_in()",
    "hand_in_card": "hand_in_card()",
    "after": 'after("warmer", chart(run))',
    "quiz": 'quiz("00-first-run")',
    "note": 'note("steps")',
    "bring_in": 'view = bring_in("run.csv")',
    "hand_sheet": 'sheet = hand_sheet("my-run")',
    "follow": 'live = follow("run.csv")',
    "follow_serial": 'live = follow_serial("COM3", baud=9600)',
}
FIT = (Parameter.POSITIONAL_ONLY, Parameter.POSITIONAL_OR_KEYWORD, Parameter.KEYWORD_ONLY)
BY_PLACE = FIT[:2]


def answering(thing):
    """A function that answers a call which can't fit its parameters with a Fault and an example line; anything else as it is."""
    return patient(thing) if isfunction(thing) else thing


def patient(verb):
    @wraps(verb)
    def called(*given, **named):
        try:
            return verb(*given, **named)
        except TypeError as problem:
            if not fits(verb, given, named):
                raise misfit(verb, given, named) from problem
            raise

    return called


def fits(verb, given, named):
    try:
        signature(verb).bind(*given, **named)
    except TypeError:
        return False
    return True


def misfit(verb, given, named):
    """The Fault for a call that doesn't fit: an unknown keyword, too much, one thing twice, or something missing; the first of these."""
    parameters = [each for each in signature(verb).parameters.values() if each.kind in FIT]
    names, by_place = [each.name for each in parameters], [each.name for each in parameters if each.kind in BY_PLACE]
    takes_any = len(parameters) < len(signature(verb).parameters)
    unknown = [name for name in named if name not in names and not takes_any]
    twice = [name for name in by_place[: len(given)] if name in named]
    if unknown:
        what = no_such_keyword(verb.__name__, unknown[0], names)
    elif len(given) > len(by_place):
        what = f"{verb.__name__} takes {listed(by_place) if by_place else 'nothing'} without a name before it; write all else as name=value."
    elif twice:
        what = f"{verb.__name__} was given {twice[0]} twice."
    else:
        missing = [each for each in parameters[len(given) :] if each.default is Parameter.empty and each.name not in named]
        what = f"{verb.__name__} also needs {listed(each.name if each.kind in BY_PLACE else f'{each.name}=' for each in missing)}."
    return Fault(f"{what} For example: {EXAMPLES[verb.__name__]}")


def no_such_keyword(verb, name, known):
    """'check_steady knows no over=. Did you mean over_min=?', or what it knows."""
    near = get_close_matches(name, known, n=1)
    near = near or [each for each in known if each.startswith(name) or name.startswith(each)][:1]
    choice = f"Did you mean {near[0]}=?" if near else f"It takes {listed(known)}." if known else "It takes nothing."
    return f"{verb} knows no {name}=. {choice}"
