"""How often a calibration's scale holds, side by side in one bath: with a bent scale, unequal lags, a bath that only warms."""

from dataclasses import dataclass

import numpy as np
import pandas as pd

from kit.analysis.thermometers import calibrate
from kit.bench import displayed, wander
from kit.coverage.invented import HELD, seed_of
from kit.coverage.study import Figure, Row, Study, share
from kit.records import Run, Source
from kit.statistics import coverage_factor

RUNS, SCALE = 1000, 1.004


@dataclass(frozen=True)
class Bath:
    """One kind of bath: does it go up and down, or only warm; by how much the treated scale bows (°C), how late it comes (s), by how much it
    reads high (°C), the display's step. `held`: the bar, None where nothing in the record could show what is wrong."""

    up_and_down: bool = True
    bow_c: float = 0.0
    lag_s: float = 0.0
    shift_c: float = 0.0
    display_c: float = 0.01
    held: float | None = HELD

    def __str__(self):
        way = "up and down" if self.up_and_down else "only warming"
        return f"{way}, bow {self.bow_c:g} °C, lag {self.lag_s:g} s, {self.shift_c:g} °C apart, display {self.display_c:g} °C"


BATHS = (
    Bath(), Bath(up_and_down=False), Bath(display_c=0.1), Bath(shift_c=0.1), Bath(bow_c=0.2), Bath(bow_c=0.2, up_and_down=False), Bath(lag_s=3.0),
    Bath(lag_s=3.0, up_and_down=False, held=None),
)  # fmt: skip


def bath_row(kind, runs):
    """One row: how often the scale at a random temperature of the bath is held, and which cautions are given."""
    rng, seconds = seed_of(str(kind)), np.arange(0, 1200.0, 2.0)
    held, widths, told = [], [], []
    for _ in range(runs):
        at = np.linspace(-1, 1, 41)
        course = _course(seconds, kind.up_and_down)
        later = _course(seconds - kind.lag_s, kind.up_and_down)
        treated = SCALE * later + kind.shift_c + kind.bow_c * ((later - 30) / 8) ** 2
        table = {
            name: displayed(each + rng.uniform(0, kind.display_c) + wander(rng, seconds, 0.01, 10), kind.display_c)
            for name, each in (("treated", treated), ("control", course))
        }
        found = calibrate(Run(pd.DataFrame(table, index=pd.Index(seconds, name="elapsed_s")), "bath", Source("bath", "")))
        told.append({caution.code for caution in found.cautions})
        line = found.lines["treated"]
        slope = SCALE + 2 * kind.bow_c * rng.choice(at) / 8
        off = (1 + line.slope) * slope - 1
        reach = coverage_factor(0.95, line.dof) * (found.gain_uncertainty or np.inf)
        held.append(abs(off) <= reach)
        widths.append(100 * reach)
    figures = (
        share("scale covers %", np.array(held), low=-np.inf if kind.held is None else kind.held),
        Figure("scale ± %", float(np.median(widths)), places=2),
        *(share(f"{code} %", np.array([code in each for each in told])) for code in ("bent", "lag", "lag-hidden", "apart")),
    )
    return Row(str(kind), figures)


def _course(seconds, up_and_down):
    return 30 + 8 * (np.sin(2 * np.pi * seconds / 700) if up_and_down else 1 - 2 * np.exp(-np.maximum(seconds, 0) / 600))


STUDIES = (
    Study("scales", "calibrate, two thermometers in one bath: the scale of one against the other.",
          lambda runs=None: (bath_row(kind, runs or RUNS) for kind in BATHS)),
)  # fmt: skip
