"""What the page says of all runs together: results at a glance, the class, the causes as weighed, and how each number was made."""

from math import isfinite

from kit.analysis.causes import RUNS, WeighedCauses
from kit.estimate import Range, rounded
from kit.report.classwork import NO_REASON
from kit.report.findings import PICTURED, result_of
from kit.report.page.evidence import kind_in_words
from kit.report.page.methods import METHODS
from kit.report.page.pieces import bullets, figure, said, section, table
from kit.words import counted, listed

FEWER = "All pictures are there for the first {} runs; how fast the others warmed is told in words and tables."
THERMOMETERS = "Nobody said whether groups shared a pair of thermometers. If they did, they err alike, and the range is too narrow."
INVENTED_CLASS = "The other groups of this class are invented: the kit's vessel model made them."


def glance(findings):
    """Every run's effect in one table; nothing for a single run."""
    rows = [(each.evidence.run.name, kind_in_words(each.evidence), *_number(each.of("effect"))) for each in findings]
    told = table("", rows, ("run", "what was done", "warmed more by", "verdict"))
    fewer = said("p", FEWER.format(PICTURED), cls="quiet") if len(rows) > PICTURED else ""
    return section("Results at a glance", told, fewer) if len(rows) > 1 else ""


def _number(effect):
    return (effect.warming.text if isfinite(effect.warming.value) else "no number"), effect.verdict


def together_sections(together, material):
    """The sections on all runs together."""
    parts = {"class": _class, "causes": _causes}
    return "".join(_told(each, parts[each.key], material) for each in together)


def _told(finding, part, material):
    if finding.result is None:
        return section(finding.heading, said("p", finding.missing, cls="gap"))
    return section(finding.heading, *part(finding.result, finding.picture, material))


def _class(effect, picture, material):
    shares = [(share.name, share.warming.text, f"{rounded(100 * share.weight, 0)} %") for share in effect.shares]
    means = [("class mean", effect.mean.text, ""), ("plain mean", effect.plain_mean.text, ""), ("one more group", effect.next_group.text, "")]
    yield said("p", INVENTED_CLASS, cls="gap") if material.class_.invented else ""
    yield said("p", f"{effect} {effect.reason}", cls="finding")
    yield figure(picture)
    yield table(f"{counted(len(shares), 'group')} and their mean", [*shares, *means], ("group", "warmed more by", "counts for"))
    left_out = [*((name, why.strip() or NO_REASON) for name, why in material.class_.left_out), *effect.left_out]
    yield table("Left out", left_out, ("group", "why")) if left_out else ""
    yield said("p", f"With the places of the vessels changed: {listed(material.class_.turned)}.") if material.class_.turned else ""
    yield bullets([THERMOMETERS if each.code == "thermometers" else each for each in effect.cautions])


def _causes(causes, picture, _material):
    yield said("p", f"{causes} {causes.reason}" if isinstance(causes, WeighedCauses) else causes, cls="finding")
    yield figure(picture)
    if isinstance(causes, WeighedCauses):
        rows = [(cause.rival, Range(cause.least, cause.most, "°C"), cause.word) for cause in causes.causes]
        yield table("Each cause, given all runs", rows, ("cause", "made in the CO2 run", "which is"))
        yield table("The runs that were weighed", [(RUNS[run.kind], run.effect.text) for run in causes.runs], ("run", "effect"))
    else:
        yield table("Each cause by its size", [(each.rival, each.size, each.standing) for each in causes.causes], ("cause", "could add", "beside the effect"))


def methods(findings, together):
    """How each kind of number on this page was made."""
    keys = {each.key for found in findings for each in found.findings if each.result is not None} | {each.key for each in together if each.result is not None}
    if "causes" in keys:
        keys.add("weighed" if isinstance(result_of(together, "causes"), WeighedCauses) else "sizes")
    rows = [words for key, words in METHODS.items() if key in keys]
    return section("How each number was made", table("", rows)) if rows else ""
