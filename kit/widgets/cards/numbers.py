"""The numbers that a lesson's texts name in braces: the learner's own as they are now, or the kit's while those won't do."""

from dataclasses import dataclass, field, fields, replace
from itertools import combinations

from kit.analysis.effect import change_of, level, misplaced, paired_effect, suggest_windows
from kit.estimate import Estimate
from kit.faults import Fault
from kit.examples import example_run
from kit.coursework import kept_marks, names_in
from kit.units import difference, temperature

TOO_CLOSE_C = 0.05  # two choices nearer than this would be told apart by luck
READINGS = ("treated_start", "treated_end", "control_start", "control_end")
OWN = "The numbers come from your own windows."
UNFIT = "The numbers come from the kit's windows. {problem}"
TOO_CLOSE = "The numbers come from the kit's windows: with yours, two answers would lie too close together."


@dataclass(frozen=True)
class Numbers:
    """What a lesson's texts name: as `values` (numbers, or words such as "stays"), and as `texts` with their units.

    `problem`: why the marks can't give them; `origin`: whose they are.
    """

    values: dict = field(default_factory=dict)
    texts: dict = field(default_factory=dict)
    problem: str = ""
    origin: str = ""

    def numbers(self):
        """Itself, so that a lesson may hand ready-made numbers to a card."""
        return self


def shown_numbers(lesson, source=None):
    """The numbers as they are now.

    `source`: a window marker, a result, anything with a method `numbers()` that gives `Numbers` (a lesson's view), or None for the
    marks kept for the lesson's run.
    """
    if hasattr(source, "numbers"):
        return source.numbers()
    if not _has_windows(source):
        return numbers_of_result(source)
    try:
        effect = _effect_now(lesson, source)
        numbers = numbers_of_effect(effect)
    except Fault as fault:
        return Numbers(problem=str(fault))
    return replace(numbers, problem=misplaced(effect.windows, change_of(effect.run)), origin=OWN)


def numbers_for(lesson, source, question):
    """The numbers for one question: the learner's, unless the marks are unfit or two of its choices would come too close."""
    if not any(names_in(each) for each in question.texts):
        return Numbers()
    own = shown_numbers(lesson, source)
    if not _has_windows(source) or not own.problem and _apart(question, own.values):
        return own
    run = _run(lesson, source)
    ours = numbers_of_effect(paired_effect(run, suggest_windows(run)))
    return replace(ours, origin=UNFIT.format(problem=own.problem) if own.problem else TOO_CLOSE)


def numbers_of_effect(effect):
    """An `Effect` and what it is made of: where each vessel and the gap between them began and ended, and how far each changed."""
    readings = effect.run.readings
    series = {"treated": readings["treated"], "control": readings["control"], "gap": effect.run.difference()}
    spots = {f"{name}_{end}": level(column, *window) for name, column in series.items() for end, window in _ends(effect.windows)}
    changes = {f"{name}_change": spots[f"{name}_end"] - spots[f"{name}_start"] for name in ("treated", "control")}
    values = {**spots, **changes, "effect": effect.warming.value}
    texts = {name: (temperature if name in READINGS else difference)(value, 2) for name, value in values.items()}
    return Numbers(values, {**texts, "effect": effect.warming.value_text, "range": effect.warming.range, "sentence": str(effect)})


def _ends(windows):
    return ("start", ("baseline", windows.baseline)), ("end", ("response", windows.response))


def numbers_of_result(result):
    """Every `Estimate` of a result under its own name ({rise}, {rise_range}), and the result's {sentence}."""
    found = {each.name: value for each in fields(result) if isinstance(value := getattr(result, each.name), Estimate)}
    texts = {name: each.value_text for name, each in found.items()} | {f"{name}_range": each.range for name, each in found.items()}
    return Numbers({name: each.value for name, each in found.items()}, {**texts, "sentence": str(result)})


def on_change(source, redraw):
    """Call `redraw` whenever a marker or a view has answered and come to rest. Other sources never change."""
    if hasattr(source, "observe"):
        source.observe(lambda change: redraw() if change.new.get("settled", True) else None, "answer")


def _has_windows(source):
    return source is None or hasattr(source, "windows") and hasattr(source, "observe")


def _run(lesson, marker):
    return marker.run if marker else example_run(lesson.run)


def _effect_now(lesson, marker):
    if marker:
        return marker.effect or paired_effect(marker.run, marker.windows)
    run = example_run(lesson.run)
    windows = kept_marks(run)
    if windows is None:
        raise Fault("No windows are marked yet.")
    return paired_effect(run, windows)


def _apart(question, values):
    names = {name for each in question.choices for name in names_in(each.text)}
    return all(abs(values[one] - values[other]) >= TOO_CLOSE_C for one, other in combinations(sorted(names), 2))
