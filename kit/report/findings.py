"""What a report says of one run: each answer of the kit with its picture, its table, its sentence and its own account."""

from dataclasses import dataclass

from kit.analysis.causes import possible_causes
from kit.analysis.comparison import compare
from kit.analysis.curve import fit_warming
from kit.analysis.effect import paired_effect, suggest_windows
from kit.charts import chart
from kit.charts.still import svg
from kit.examples import reference_run
from kit.faults import Fault

COMPARED = "margin_c"


@dataclass(frozen=True, eq=False)
class Finding:
    """One answer: its `key` ('effect') and `heading`, the `result` itself, and its `picture` (SVG). Where there is none: why, in `missing`."""

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
        return next((each.result for each in self.findings if each.key == key), None)


def findings_of(evidence, material):
    """The `Findings` of one run. The comparison is there once a margin was decided."""
    run, windows, margin = evidence.run, evidence.windows, material.latest(COMPARED) or material.margin_c
    judged = {"tolerance_c_per_min": material.tolerance_c_per_min}
    effect = paired_effect(run, windows, **judged)
    questions = {
        ("run", "The readings"): lambda: run,
        ("effect", "How much warmer"): lambda: effect,
        ("curve", "How fast"): lambda: fit_warming(run, windows, **judged),
        ("causes", "What could have warmed it"): lambda: possible_causes(effect),
    }
    if isinstance(margin, (int, float)) and margin:
        questions["comparison", "Against the reference run"] = lambda: compare(effect, _reference_effect(judged), margin=margin)
    return Findings(evidence, tuple(_found(key, heading, answer) for (key, heading), answer in questions.items()))


def _found(key, heading, answer):
    try:
        result = answer()
    except Fault as fault:
        return Finding(key, heading, missing=str(fault))
    return Finding(key, heading, result, svg(chart(result), str(result)))


def _reference_effect(judged):
    run = reference_run()
    return paired_effect(run, suggest_windows(run), **judged)
