"""The eleven bundled runs of lesson 10: what each showed, what each cause predicted for it, and what all of them leave open together."""

from functools import cache, lru_cache

from kit.analysis.causes import CausePrediction, RUNS, prediction, weigh_causes
from kit.analysis.effect import paired_effect
from kit.estimate import rounded
from kit.examples import example_run
from kit.records import Windows
from kit.units import difference
from kit.words import listed

GAS_AT_MIN, WAITED_MIN = 11, 45
FILES = {
    "gas": "basalt", "air": "flint-air", "argon": "marble-argon", "covered": "basalt-covered", "shaded": "pumice-shaded",
    "covered_shaded": "basalt-covered-shaded", "stirred": "pumice-stirred", "filtered": "basalt-filter", "swapped": "basalt-swapped",
    "waited": "basalt-long", "dark": "pumice-dark",
}  # fmt: skip
NAMES = {"covered_shaded": "covered and shaded", "dark": "no lamp", "gas": "CO2", "air": "air"}
GIVEN = ("gas", "air")
FOR_SALE = tuple(kind for kind in FILES if kind not in GIVEN)


def name_of(kind):
    """A kind of run in a word or two: 'covered and shaded'."""
    return NAMES.get(kind, kind)


@cache
def effect_of(kind):
    """The `Effect` of the bundled run of this kind, read 10 min after the gas, or 45 where that is the question."""
    run = example_run(FILES[kind])
    usual, late = Windows.of_perturbation(GAS_AT_MIN), GAS_AT_MIN + WAITED_MIN
    waited = Windows(usual.baseline, usual.perturbation, (late - 0.5, late + 0.5))
    return paired_effect(run, waited if kind == "waited" else usual)


@lru_cache(maxsize=64)
def weighed(kinds):
    """`WeighedCauses` of the gas run, the air run and these further kinds, in this order."""
    return weigh_causes({kind: effect_of(kind) for kind in (*GIVEN, *kinds)})


def beside_gas(kind):
    """A run's effect over that of the gas run as a `CausePrediction`, so that it has a word, too: 'less', from 0.06 to 0.60."""
    here, gas = effect_of(kind).warming, effect_of("gas").warming
    ends = [end / size for end in (here.low, here.high) for size in (gas.low, gas.high)]
    return CausePrediction("", kind, min(ends), max(ends))


def fits_alone(letter, kind):
    """Could this cause have made all of the gas run's effect, given what this run showed? By the model's range for it."""
    predicted, shown = prediction(letter, kind), beside_gas(kind)
    return predicted.low <= shown.high and shown.low <= predicted.high


def narrowing(kind, letters):
    """By how much (°C) this run alone, beside gas and air, shortens the bars of these causes."""
    given, with_it = (sum(each.most - each.least for each in weighed(kinds).causes if each.letter in letters) for kinds in ((), (kind,)))
    return given - with_it


def best_first(letters):
    """(run, by how much it shortens these causes' bars, which of them don't fit alone) for all nine runs, the most telling first."""
    telling = {kind: (narrowing(kind, letters), [each for each in letters if not fits_alone(each, kind)]) for kind in FOR_SALE}
    order = sorted(FOR_SALE, key=lambda kind: (round(telling[kind][0], 1), len(telling[kind][1])), reverse=True)
    return [(name_of(kind), difference(by, 1), listed(out or ["none"])) for kind in order for by, out in [telling[kind]]]


def told(kind):
    """What a run is, and what it showed, in two sentences; with a weaker beam also what part of the control's own warming that is."""
    effect = effect_of(kind)
    said = f"{RUNS[kind][0].upper()}{RUNS[kind][1:]}. {effect}"
    return f"{said} {_quotients()}" if kind == "filtered" else said


def _quotients():
    """The weaker beam warms less: effect over the control's own warming, in that run and in the gas run."""
    of = {run.kind: rounded(run.quotient, 2) for run in weighed(("filtered",)).runs}
    shares = f"That is {of['filtered']} of the control's own warming, in the gas run {of['gas']}."
    return f"{shares} Half a beam changes that by itself, so look at the model's column only."
