"""An invented run for tests of the widgets: lamp at minute 0, gas in the treated vessel at minute 11, one reading every 2 s."""

import numpy as np
import pandas as pd

from kit.records.run import Run, Source, fingerprint


def invented_run(readings=646, minutes=21.5, gas=True, name="basalt-like"):
    """Both vessels warm with the lamp; from minute 11 the treated one warms by 1.5 °C more. All numbers are made up."""
    noise = np.random.default_rng(7).normal(0, 0.03, (2, readings))
    elapsed_s = np.linspace(0, 60 * minutes, readings)
    lamp = 9 * (1 - np.exp(-elapsed_s / 150)) + 0.03 * elapsed_s / 60
    extra = 1.53 * (1 - np.exp(-np.clip(elapsed_s - 670, 0, None) / 110))
    table = {"treated": 20.6 + lamp + extra + noise[0], "control": 20.4 + lamp + noise[1]}
    if gas:
        table["gas_ppm"] = 420 + 9000 * (1 - np.exp(-np.clip(elapsed_s - 660, 0, None) / 25))
    frame = pd.DataFrame(table, index=pd.Index(elapsed_s, name="elapsed_s"))
    return Run(frame, name, Source(f"{name}.csv", fingerprint(frame)), kind="simulated")
