"""What the page says of one run: its windows, readings, effect, curve and comparison, each as a sentence, a picture and a table."""

from math import isfinite

from kit.analysis.causes import RUNS
from kit.report.page.pieces import bullets, details, element, figure, paragraphs, said, section, table
from kit.units import stated, temperature
from kit.words import clock

INVENTED = "This run is simulated by the kit's vessel model, and says so. It shows how the work is done, not what a real vessel does."
OTHER_UNITS = {"gas_ppm": ("CO2", "ppm"), "light": ("light", "")}
DECIDED = {"keep": "kept", "flag": "kept, with a flag", "out": "left out", "": "stands as it is"}
STEPS = "This number, step by step"
NOT_SAID = "nobody said"


def evidence_section(found):
    """One run as a section of the page."""
    evidence, run = found.evidence, found.evidence.run
    simulated = [said("p", INVENTED, cls="gap")] if run.kind == "simulated" else []
    parts = {"run": _readings, "effect": _effect, "curve": _curve, "comparison": _comparison}
    told = [_told(each, parts[each.key], evidence) for each in found.findings]
    return section(f"Evidence: run {run.name}", *simulated, said("p", f"{run} {_what(evidence)}"), *told)


def kind_in_words(evidence):
    """What was done in that run."""
    return RUNS.get(evidence.kind, NOT_SAID)


def _what(evidence):
    return f"What was done: {kind_in_words(evidence)}." if evidence.kind in RUNS else ""


def _told(finding, part, evidence):
    if finding.result is None:
        return section(finding.heading, said("p", finding.missing, cls="gap"), level=3)
    return section(finding.heading, *part(finding.result, finding.picture, evidence), level=3)


def _readings(run, picture, evidence):
    seconds = evidence.windows.seconds
    names = ("B, baseline", "P, perturbation", "R, response")
    windows = [(name, f"{clock(seconds[2 * at])} to {clock(seconds[2 * at + 1])}") for at, name in enumerate(names)]
    spans = [_span(name, column) for name, column in run.readings.items()]
    odd = [(place, DECIDED.get(choice, choice), why) for place, choice, why in evidence.odd_places]
    yield figure(picture)
    yield table("Windows, and lowest to highest reading", [*windows, *spans])
    yield table("Odd places, and what was decided", odd, ("place", "decided", "why")) if odd else ""
    yield said("p", f"How the file was read: {' '.join(map(str, evidence.read_so))}", cls="method") if evidence.read_so else ""


def _span(name, column):
    words, unit = OTHER_UNITS.get(name, (name, ""))
    ends = column.min(), column.max()
    if column.isna().all():
        return words, "no reading"
    low, high = (f"{end:,.0f}" if name in OTHER_UNITS else temperature(end, 2) for end in ends)
    return words, f"{low} to {high} {unit}".strip()


def _effect(effect, picture, _evidence):
    yield said("p", effect, cls="finding")
    if not isfinite(effect.warming.value):
        return
    changes = [("treated vessel changed by", effect.treated_change.text), ("control changed by", effect.control_change.text)]
    why = [("verdict", f"{effect.verdict}. {effect.reason}"), ("condition", effect.condition)]
    yield figure(picture, "effect")
    yield table("What the number is made of", [*changes, *why, *((f"range: {each.name}", _part(each)) for each in effect.budget)])
    yield _cautions(effect.cautions)
    yield _steps(effect)


def _part(line):
    """One line of the budget: its size, and what would shrink it where that is worth while."""
    return f"{line.size_text}. To shrink it: {line.remedy}." if line.seen else line.size_text


def _curve(curve, picture, _evidence):
    yield said("p", str(curve).removeprefix(str(curve.effect)).strip(), cls="finding")
    if curve.found is None:
        return
    late = [("change in the last 2 min", curve.late.text)] if curve.late is not None else []
    yield figure(picture, "curve")
    yield table("The way there", [("63 % of the way after", curve.time_to_63.text), *late, ("the drawn rise", curve.diagnosis)])
    yield _cautions([each for each in curve.cautions if str(each) not in {str(other) for other in curve.effect.cautions}])
    yield _steps(curve)


def _comparison(comparison, picture, _evidence):
    yield said("p", f"{comparison} {comparison.reason}", cls="finding")
    yield figure(picture, "comparison")
    margin = ("margin, chosen beforehand", stated(comparison.margin))
    rows = [("difference", comparison.difference.text), margin, ("tested range", comparison.tested.range)]
    yield table("This run and the reference (invented)", rows)
    yield _cautions(comparison.cautions)
    yield _steps(comparison)


def _cautions(cautions):
    return element("div", said("p", "Keep in mind:"), bullets(cautions)) if cautions else ""


def _steps(result):
    return details(STEPS, paragraphs(result.explain(), cls="method"))
