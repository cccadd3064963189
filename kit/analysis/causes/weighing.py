"""Several runs weighed together: the least and the most that each cause can be, given all of them."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from kit.analysis.basis import safety
from kit.analysis.causes.bounds import LETTERS, bounds
from kit.analysis.causes.plausible import Plausible, plausible_with
from kit.analysis.causes.possible import estimate_of
from kit.analysis.causes.predictions import FEWER, computed_table, ratio_ranges, record, size_limits
from kit.analysis.causes.rivals import BY_LETTER, RUNS, Rival, known_kind
from kit.analysis.causes.weighingwords import reason_of, sentence_of, weighed_rows
from kit.estimate import Estimate
from kit.faults import Fault
from kit.settings import class_settings
from kit.words import account, plain, table_html

NEEDED_C = 0.005  # a least size under this is none, for people
PPM = 1e6


@dataclass(frozen=True)
class WeighedRun:
    """One run: its kind and effect (an Estimate, °C), the share of gas at reading (0 to 1), and how far its control had warmed (°C); each
    of the two None where it was not recorded."""

    kind: str
    effect: object
    share: float | None = None
    control_warmed_c: float | None = None

    @property
    def quotient(self):
        """Effect over the control's own warming: what a weaker lamp should be compared by, beside the model."""
        return self.effect.value / self.control_warmed_c if self.control_warmed_c else None


@dataclass(frozen=True)
class WeighedCause:
    """One cause: what it made at least and at most (°C) in the gas run, given all runs, and the word: "needed" (0 is not inside),
    "excluded as the only cause" (its most is below the effect), "not needed" (another one is, and this one may be 0) or "open"."""

    rival: Rival
    least: float
    most: float
    word: str

    @property
    def letter(self):
        return self.rival.letter


@dataclass(frozen=True, eq=False)
class WeighedCauses:
    """All causes, given all runs. `runs`: a `WeighedRun` each. `history`: after each run, its kind and (least, most) of every cause.

    `contradiction`: kinds of the runs that can't both be right, or (). `vessel`: the plausible benches; `limits`, letter -> (least,
    most): what a cause can make at all (°C); `table`: the predictions used. `explain()` tells how it was weighed.
    """

    runs: tuple
    causes: tuple
    history: tuple
    contradiction: tuple
    vessel: Plausible
    limits: dict
    table: object
    cautions: tuple

    def cause(self, letter):
        """The `WeighedCause` with this letter."""
        return next(each for each in self.causes if each.letter == letter)

    @property
    def verdict(self):
        """'needed' where a cause must have been at work, 'contradict' where the runs do, else 'cannot tell'."""
        if self.contradiction:
            return "contradict"
        return "needed" if any(each.word == "needed" for each in self.causes) else "cannot tell"

    @property
    def reason(self):
        """What decides, or what would."""
        return reason_of(self)

    @cached_property
    def next_runs(self):
        """(kind, expected width) of each kind of run not yet done, the most helpful first: the sum over all causes of most less least (°C),
        as it would be on average over the ends of what is still open."""
        missing = [kind for kind in RUNS if kind not in {run.kind for run in self.runs}]
        widths = [(kind, _expected_width(self, kind)) for kind in missing if not self.contradiction]
        return tuple(sorted(widths, key=lambda each: each[1]))

    def __str__(self):
        return sentence_of(self)

    def explain(self):
        """How it was weighed, run by run."""
        return account(self, self.reason, *(f"{name}: {said}." for name, said in weighed_rows(self)))

    def _repr_html_(self):
        return table_html([*weighed_rows(self), ("why", self.reason)], str(self))

    def to_dict(self):
        """What JSON can keep."""
        parts = ("runs", "causes", "history", "contradiction", "vessel", "verdict", "reason", "cautions")
        return {name: plain(getattr(self, name)) for name in parts}


def weigh_causes(effects, vessel=None, *, shares=None):
    """`WeighedCauses`: for each cause the least and the most that it can be, given the effects of several kinds of run of one bench.

    `effects`: kind -> Effect or Estimate (°C), 'gas' among them; kinds: gas, air, argon, stirred, shaded, covered, covered_shaded,
    filtered, swapped, waited, dark. An Effect brings its gas trace along; else `shares` may say how much gas was left at reading (kind ->
    0 to 1): that sharpens what the model predicts.
    `vessel`: what a class knows of its bench, by the names of `Plausible`; None: what its settings say of the vessel, where every effect
    was measured (the kit's own runs come from other benches). Linear programming over the predictions of the model
    (`kit.analysis.causes.predictions`, `bounds`). A Fault names an unknown kind, an effect without a range, or the missing gas run.
    """
    runs = _runs(effects, shares or {})
    vessel = _class_vessel(runs, effects) if vessel is None else vessel
    ranges = plausible_with(vessel)
    table = computed_table(ranges, FEWER, kinds=tuple(run.kind for run in runs)) if vessel else record()
    limits = size_limits("gas", table if vessel else None)
    history, solved = [], None
    for count in range(1, len(runs) + 1):
        solved = _bounds(runs[:count], table, limits)
        if solved is None:
            break
        history.append((runs[count - 1].kind, {letter: (float(low), float(high)) for letter, low, high in zip(LETTERS, *solved[:2])}))
    causes = _causes(runs, history[-1][1] if history else limits, settled=solved is not None)
    wrong = () if solved is not None else _contradiction(runs, table, limits)
    cautions = safety("lamp", "alone", "glass", "way out", "cylinder")
    return WeighedCauses(runs, causes, tuple(history), wrong, ranges, limits, table, cautions)


def _class_vessel(runs, effects):
    """What the class's settings say of its vessel, if all effects come from measured runs; else nothing."""
    measured = all(getattr(getattr(effects[run.kind], "run", None), "kind", "") == "measured" for run in runs)
    return class_settings().of("vessel") if measured else {}


def _runs(effects, shares):
    if "gas" not in effects:
        raise Fault("The gas run is missing: it is what the causes are to explain. Add it as weigh_causes({'gas': effect, ...}).")
    order = sorted(effects, key=lambda kind: kind != "gas")
    return tuple(_run(known_kind(kind), effects[kind], shares.get(kind)) for kind in order)


def _run(kind, effect, share):
    estimate = estimate_of(effect)
    if estimate is None:
        raise Fault(f"The {kind} run has no effect with a range. Measure it again, or leave it out.")
    run, windows = getattr(effect, "run", None), getattr(effect, "windows", None)
    if run is None:
        return WeighedRun(kind, estimate, share)
    control, room = run.readings["control"], run.readings.get("room")
    start = control.dropna().iloc[0] if room is None else room.loc[slice(*windows.seconds[-2:])].mean()
    warmed = control.loc[slice(*windows.seconds[-2:])].mean() - start
    return WeighedRun(kind, estimate, _share_at_reading(run, windows) if share is None else share, float(warmed))


def _share_at_reading(run, windows):
    """Share of CO2 in the response by the gas probe; None without one, or where it stood at its top end."""
    if "gas_ppm" not in run.readings:
        return None
    seen = run.readings["gas_ppm"].loc[slice(*windows.seconds[-2:])].dropna()
    full = run.readings["gas_ppm"].max()
    if not len(seen) or full < PPM / 2 and (seen == full).mean() > 0.5:
        return None
    return float(seen.mean() / PPM)


def _bounds(runs, table, limits):
    ratios = {run.kind: _ratios(table, run.kind, runs) for run in runs if run.kind != "gas"}
    effects = {run.kind: (run.effect.low, run.effect.high) for run in runs}
    return bounds(effects, ratios, limits)


def _causes(runs, found, settled):
    low = runs[0].effect.low
    needed = {letter for letter, (least, most) in found.items() if settled and (least > NEEDED_C or most < -NEEDED_C)}
    return tuple(WeighedCause(BY_LETTER[each], *found[each], _word(each, found[each][1], needed, low, settled)) for each in LETTERS)


def _word(letter, most, needed, low, settled):
    if letter in needed:
        return "needed"
    if settled and most < low:
        return "excluded as the only cause"
    return "not needed" if needed else "open"


def _contradiction(runs, table, limits):
    """The first two runs that can't both be right with any sizes; if every two can, the run that came last stands against all others."""
    for place, one in enumerate(runs):
        for other in runs[:place]:
            pair = [run for run in runs if run.kind in ("gas", one.kind, other.kind)]
            if _bounds(pair, table, limits) is None:
                return other.kind, one.kind
    return tuple(run.kind for run in runs)


def _expected_width(weighed, kind):
    """Sum of all causes' most less least (°C) once this kind of run is done, averaged over two truths: the ends of the widest cause."""
    runs, table, limits = weighed.runs, weighed.table, weighed.limits
    sizes = _bounds(runs, table, limits)[2]
    widest = int(np.argmax([cause.most - cause.least for cause in weighed.causes]))
    low, high, _ = _ratios(table, kind, runs)
    reach, widths = runs[0].effect.half_width, []
    for end in (0, 1):
        value = float((low + high) / 2 @ sizes[end, widest])
        found = _bounds((*runs, WeighedRun(kind, Estimate(value, reach / 2, value - reach, value + reach))), table, limits)
        widths += [] if found is None else [(found[1] - found[0]).sum()]
    return float(np.mean(widths)) if widths else np.inf


def _ratios(table, kind, runs):
    """`ratio_ranges` on the class's own benches; of a kind of run that was not computed for them, on all plausible ones."""
    return ratio_ranges(table if kind in table.made else record(), kind, _shares(runs))


def _shares(runs):
    """kind -> share at reading, where it was recorded; argon and air leave no trace on a CO2 probe."""
    return {run.kind: run.share for run in runs if run.share is not None and run.kind not in ("air", "argon")}
