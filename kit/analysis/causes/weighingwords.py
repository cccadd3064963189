"""What weighed causes say of themselves."""

from kit.analysis.causes.rivals import RUNS
from kit.estimate import Range, rounded
from kit.words import listed


def sentence_of(weighed):
    """One sentence: what is needed, or why nobody can tell."""
    if weighed.contradiction:
        return f"The runs contradict each other: {_kinds(weighed.contradiction)}."
    needed = [cause for cause in weighed.causes if cause.word == "needed"]
    if not needed:
        return f"Cannot tell yet which cause is needed for the {weighed.runs[0].effect.text} of the gas run."
    told = listed(f"{cause.rival.name} ({cause.letter}, {span(cause)})" for cause in needed)
    return f"Needed for the {weighed.runs[0].effect.text} of the gas run: {told}."


def reason_of(weighed):
    """What follows from the ranges, and the run that would narrow them most."""
    if weighed.contradiction:
        return "No sizes of the causes give both. Repeat one of them, the one you trust less, before you weigh them."
    alone = [cause.letter for cause in weighed.causes if cause.word == "excluded as the only cause"]
    out = f"Excluded as the only cause: {listed(alone)}. " if alone else ""
    still = [cause.letter for cause in weighed.causes if cause.word in ("open", "not needed")]
    left = f"May be anything from nothing up: {listed(still)}. " if still else ""
    best = weighed.next_runs[:1]
    return f"{out}{left}" + (f"The run that would narrow it most: {RUNS[best[0][0]]}." if best else "Every kind of run is in.")


def weighed_rows(weighed):
    """(name, words) of each cause and each run, for tables."""
    yield from ((str(cause.rival), f"{span(cause)}: {cause.word}") for cause in weighed.causes)
    yield from ((f"run: {RUNS[run.kind]}", _run(run)) for run in weighed.runs)


def span(cause):
    """'0.6 to 1.9 °C'."""
    return str(Range(cause.least, cause.most, "°C"))


def _run(run):
    parts = [run.effect.text]
    if run.quotient is not None:
        parts.append(f"{rounded(run.quotient, 2)} of the control's own warming")
    if run.share is not None:
        parts.append(f"{rounded(100 * run.share, 0)} % of gas left at reading")
    return ", ".join(parts)


def _kinds(kinds):
    return listed(f"'{kind}'" for kind in kinds)
