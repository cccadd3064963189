"""What a report says: each answer of the kit with its picture and its sentence, for every run and for all runs together."""

from dataclasses import dataclass
from functools import lru_cache
from math import isfinite

from kit.analysis.causes import possible_causes, weigh_causes
from kit.analysis.comparison import compare
from kit.analysis.curve import fit_warming
from kit.analysis.effect import paired_effect, suggest_windows
from kit.charts import chart, marked_run
from kit.charts.still import svg
from kit.examples import reference_run
from kit.faults import Fault

COMPARED, LIKE_THE_REFERENCE = "margin_c", ("gas", "")
PICTURED = 6  # runs with all their pictures; those of further runs are without a picture where words and table say as much


@dataclass(frozen=True, eq=False)
class Finding:
    """One answer: its `key` ('effect') and `heading`, the `result` itself, and its `picture` (SVG), '' where it has none. Without
    a result: why, in `missing`."""

    key: str
    heading: str
    result: object = None
    picture: str = ""
    missing: str = ""


@dataclass(frozen=True, eq=False)
class Findings:
    """All that the kit says of one `Evidence`."""

    evidence: object
    findings: tuple

    def of(self, key):
        """The result with that key, or None."""
        return result_of(self.findings, key)


def result_of(findings, key):
    """The result of the `Finding` with that key, or None."""
    return next((each.result for each in findings if each.key == key), None)


def findings_of(evidence, material):
    """The `Findings` of one run. The comparison is there once a margin was decided, for a run that is like the reference: CO2, open vessels."""
    run, windows, margin = evidence.run, evidence.windows, material.latest(COMPARED) or material.margin_c
    tolerance = material.tolerance_c_per_min
    effect = paired_effect(run, windows, tolerance_c_per_min=tolerance)
    questions = {
        ("run", "The readings"): lambda: run,
        ("effect", "How much warmer"): lambda: effect,
        ("curve", "How fast"): lambda: fit_warming(run, windows, tolerance_c_per_min=tolerance),
    }
    if isinstance(margin, (int, float)) and margin and evidence.kind in LIKE_THE_REFERENCE:
        questions["comparison", "Against the reference run"] = lambda: compare(effect, _reference_effect(tolerance), margin=margin)
    drawn = {"run": lambda run: marked_run(run, windows)}
    if evidence in material.evidence[PICTURED:]:
        drawn |= dict.fromkeys(("curve", "comparison"))
    return Findings(evidence, _found(questions, drawn))


def together_of(material, findings):
    """`Finding`s on all runs together: the class, and what could have warmed the vessel."""
    questions = {}
    if material.class_:
        questions["class", "The class"] = lambda: material.class_.effect(material.tolerance_c_per_min)
    effects = one_bench(findings)
    if effects:
        alone = next(iter(effects.values()))
        questions["causes", "What could have warmed it"] = lambda: weigh_causes(effects) if len(effects) > 1 else possible_causes(alone)
    return _found(questions)


def one_bench(findings):
    """{kind of run: Effect with a range} of the learner's own runs, newest first; of the bundled ones where there are no own ones."""
    several = [each for each in findings if each.evidence.own][::-1] or findings
    effects = {}
    for found in several:
        effect, kind = found.of("effect"), found.evidence.kind
        if effect and isfinite(effect.warming.low) and isfinite(effect.warming.high):
            effects.setdefault(kind, effect)
    told = {kind: effect for kind, effect in effects.items() if kind}
    return told if "gas" in told else {"": effects[""]} if "" in effects else {}


def _found(questions, drawn=None):
    """A `Finding` for each question; `drawn`: what draws an answer in place of its own chart, None for no picture."""
    return tuple(_finding(key, heading, answer, (drawn or {}).get(key, chart)) for (key, heading), answer in questions.items())


def _finding(key, heading, answer, draw):
    try:
        result = answer()
    except Fault as fault:
        return Finding(key, heading, missing=str(fault))
    return Finding(key, heading, result, svg(draw(result), str(result), headed=False) if draw else "")


@lru_cache(maxsize=2)
def _reference_effect(tolerance_c_per_min):
    run = reference_run()
    return paired_effect(run, suggest_windows(run), tolerance_c_per_min=tolerance_c_per_min)
