"""A run made to order, so that a test says only what matters to it."""

import numpy as np
import pandas as pd
import pytest

from kit.bench.noise import displayed, wander
from kit.records.run import Run, Source, fingerprint


@pytest.fixture(scope="session")
def made():
    """made(...) gives a Run: a quiet start of 11 min, a rise of `rise_c` from minute 11, noise of 0.014 °C and 10 s, a display's step, a jump at
    minute 16.5."""
    return made_run


def made_run(rise_c=1.5, *, step_s=2.0, end_min=21.5, display_c=0.01, memory_s=10, drift=0.0, warming=0.0, seed=1, jump=0.0, **columns):
    rng, seconds = np.random.default_rng(seed), np.arange(0, 60 * end_min + step_s / 2, step_s)
    rise = rise_c * -np.expm1(-np.maximum(seconds - 670, 0) / 150)
    noise = wander(rng, seconds, 0.014, memory_s, 2)
    shared = 21 + warming * seconds / 60
    both = {"treated": shared + rise + drift * seconds / 60 + jump * (seconds > 990) + noise[0], "control": shared + 0.2 + noise[1]}
    table = {name: displayed(values, display_c) for name, values in both.items()}
    readings = pd.DataFrame({**table, **columns}, index=pd.Index(seconds, name="elapsed_s"))
    return Run(readings, "made", Source("made.csv", fingerprint(readings)), kind="simulated")
