"""What makes a range wide: noise, display, calibration and drift, each with its size and what would shrink it."""

from dataclasses import dataclass

from kit.estimate import Estimate, amount
from kit.statistics import coverage_factor

QUIET_MINUTES = 10
SEEN_C = 0.0005


@dataclass(frozen=True)
class Noise:
    """What readings do by chance. `sd_c`: how far a mean of a few seconds strays (°C); `correlation_s`: for how long neighbours agree (s);
    `white_share`: the part of its variance that neighbours do not share; `readings`, `looks`: readings of the baseline, and how many
    independent looks they hold; `dof`: degrees of freedom."""

    sd_c: float
    correlation_s: float
    white_share: float
    readings: int
    looks: float
    dof: float


@dataclass(frozen=True)
class Drift:
    """What the difference does by itself, °C a minute. `slope`: as seen in the `seen_min` minutes before the change; `bound`: what the range
    allows for, over `minutes`, which makes `allowance_c`; `measured`: whether the record set that bound or the tolerance did."""

    slope: Estimate
    seen_min: float
    bound: float
    minutes: float
    measured: bool

    @property
    def allowance_c(self):
        """How far the drift may have moved the effect, °C."""
        return self.bound * self.minutes

    @property
    def condition(self):
        """Under which condition the range holds."""
        if self.measured:
            return f"as long as the difference goes on drifting by no more than {amount(self.bound)} °C a minute, as measured before the change"
        return f"as long as the difference drifts by itself by no more than {self.bound:g} °C a minute"


@dataclass(frozen=True)
class BudgetLine:
    """One thing that makes the range wide: its name, how far it alone would reach (°C, at the effect's level), what would shrink it."""

    name: str
    size_c: float
    remedy: str

    def __str__(self):
        return f"{self.name} {self.size_text}"

    @property
    def size_text(self):
        """The size in words."""
        return f"{amount(self.size_c)} °C" if self.size_c > SEEN_C else "next to nothing"


def budget_of(found, drift, level):
    """The lines of the budget, largest first, for one run's `PairedEffects` (numbers, not arrays) and its `Drift`."""
    factor = coverage_factor(level, found.dof)
    wait = "wait longer before the change, until the difference is steady"
    watch = f"record {QUIET_MINUTES} quiet minutes before the change, so that the drift is measured and not assumed"
    lines = (
        BudgetLine("noise", factor * found.noise, "a longer baseline and response (more readings a minute hardly help)"),
        BudgetLine("display", factor * found.display, "a thermometer with a finer display, or several runs"),
        BudgetLine("calibration", factor * found.gain, "compare the two thermometers at two temperatures"),
        BudgetLine("drift", drift.allowance_c, wait if drift.measured else watch),
    )
    return tuple(sorted(lines, key=lambda line: -line.size_c))
