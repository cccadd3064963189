"""What makes a range wide: noise, display, calibration, drift and jumps, each with its size and what would shrink it."""

from dataclasses import dataclass, replace
from math import hypot

from kit.estimate import Estimate, Parts, places_for, rounded
from kit.faults import Fault
from kit.statistics import coverage_factor, ranged
from kit.units import about, span, stated
from kit.words import listed

QUIET_MINUTES, ENOUGH_MINUTES = 10, 8
SEEN_C = 0.0005


@dataclass(frozen=True)
class ReadingNoise:
    """What readings do by chance. `sd_c`: how far a mean of a few seconds strays (°C); `correlation_s`: for how long neighbours agree (s);
    `white_share`: the part of its variance that neighbours do not share; `readings`, `independent`: readings of the baseline, and
    how many independent ones they are worth; `dof`: degrees of freedom; `display_c`: what the display's step hides of the effect (standard
    uncertainty, °C)."""

    sd_c: float
    correlation_s: float
    white_share: float
    readings: int
    independent: float
    dof: float
    display_c: float


@dataclass(frozen=True)
class Drift:
    """What the difference does by itself, °C a minute. `slope`: as seen in the `seen_min` minutes before the change; `low`, `high`: the drifts
    that the range holds for, over `minutes`; `measured`: whether the record set them or the tolerance did; `bent`: whether the difference ran
    no straight line before the change, but wandered by `swing_c` (°C, from its lowest minute to its highest)."""

    slope: Estimate
    seen_min: float
    low: float
    high: float
    minutes: float
    measured: bool
    bent: bool
    swing_c: float

    @property
    def bound(self):
        """The largest drift that the range holds for, either way, °C a minute."""
        return max(-self.low, self.high)

    @property
    def allowance_c(self):
        """How far the drift may have moved the effect at most, °C."""
        return self.bound * self.minutes

    @property
    def condition(self):
        """Under which condition the range holds, in two sentences: how far the vessels may have drifted apart, and who says so."""
        apart = f"the two vessels would otherwise have drifted apart by {self._reach} in these {rounded(self.minutes, 0)} minutes."
        if self.bent:
            return f"The range holds if {apart} They wandered as far before the change."
        if self.measured:
            return f"The range holds if {apart} The {rounded(self.seen_min, 0)} minutes before the change say so."
        return f"The range holds if {apart} That is the tolerance, {stated(self.high)} a minute; the minutes before the change can't show so little."

    @property
    def _reach(self):
        """How far apart in words: 'less than 0.11 °C'; from one end to the other, where what was seen lies beyond the nearer one."""
        nearer = min(-self.low, self.high)
        if not abs(self.slope.value) >= nearer:  # no slope was seen where it is nan
            return f"less than {about(nearer * self.minutes)}"
        places = places_for(self.allowance_c, 2)
        return span(self.low * self.minutes, self.high * self.minutes, places)


@dataclass(frozen=True)
class JumpSeen:
    """A jump in the difference that no warming makes, at minute `at_min`: by `size_c` (°C), and back after `lasts_min` minutes (infinite: it
    stays). `with_it`, `without_it`: the range of the effect if the jump belongs to it and if it doesn't, (low, high) in °C."""

    at_min: float
    lasts_min: float
    size_c: float
    with_it: tuple
    without_it: tuple

    @property
    def moved_c(self):
        """How far it may have moved the effect at most, °C."""
        return max(abs(self.with_it[0] - self.without_it[0]), abs(self.with_it[1] - self.without_it[1]))


@dataclass(frozen=True)
class BudgetLine:
    """One thing that makes the range wide: its name, how far it alone would reach (°C, at the effect's level), what would shrink it."""

    name: str
    size_c: float
    remedy: str

    def __str__(self):
        return f"{self.name} {self.size_text}"

    @property
    def seen(self):
        """Is it large enough to be seen in the effect?"""
        return self.size_c > SEEN_C

    @property
    def size_text(self):
        """The size in words."""
        return about(self.size_c) if self.seen else "next to nothing"


def budget_of(parts, noise, drift, jump, level):
    """The lines of the budget, largest first, from the `Parts` of an effect, its `ReadingNoise`, `Drift`, and `JumpSeen` or None."""
    factor = coverage_factor(level, parts.dof)
    chance = max(parts.error**2 - noise.display_c**2, 0.0) ** 0.5
    wait = "wait longer before the change, until the difference is steady"
    longer = "keep more quiet minutes in the record before the change: the drift is then known better"
    watch = f"record {QUIET_MINUTES} quiet minutes before the change, so that the drift is measured and not assumed"
    quieter = "let the difference run quieter before the change: its readings scatter too much to measure so small a drift"
    unmeasured = watch if drift.seen_min < ENOUGH_MINUTES else quieter
    lines = [
        BudgetLine("noise", factor * chance, "a longer baseline and response (more readings a minute hardly help)"),
        BudgetLine("display", factor * noise.display_c, "a thermometer with a finer display, or several runs"),
        BudgetLine("calibration", factor * parts.gain, "compare the two thermometers at two temperatures"),
        BudgetLine("drift", drift.allowance_c, (longer if drift.slope.holds(0) else wait) if drift.measured else unmeasured),
    ]
    if jump:
        lines.append(BudgetLine("jump", jump.moved_c, f"find what happened at minute {rounded(jump.at_min, 1)}, and run again without it"))
    return tuple(sorted(lines, key=lambda line: -line.size_c))


def warming_with(effect, shares):
    """The `Estimate` of an `Effect`'s warming if each line of its budget, by name, counted for that share of itself (0 to 1; 1 where none is named).

    With nothing left of any line, half a thousandth of a degree of chance stays. A Fault for an effect without a range, and for a line it lacks.
    """
    whole, known = effect.warming, [line.name for line in effect.budget]
    strange = [name for name in shares if name not in known]
    if not known or strange:
        raise Fault(f"The budget has {listed(known)}, and no {strange[0]!r}." if known else f"There is no range, so no budget. {effect.reason}")
    share, parts, display = {**dict.fromkeys(known, 1.0), **shares}, whole.parts, effect.noise.display_c
    error = hypot(share["noise"] * max(parts.error**2 - display**2, 0.0) ** 0.5, share["display"] * display)
    drift = share["drift"] * parts.drift_low, share["drift"] * parts.drift_high
    fewer = Parts(max(error, SEEN_C), parts.dof, share["calibration"] * parts.gain, *drift)
    pulled, plain = (ranged(whole.value, each, level=whole.level) for each in (fewer, parts))
    jump = share.get("jump", 0.0)  # what it adds to the range at either end
    return replace(pulled, low=pulled.low + jump * (whole.low - plain.low), high=pulled.high + jump * (whole.high - plain.high))
