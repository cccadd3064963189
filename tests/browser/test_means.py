"""The marker's number in the browser and the kernel's: equal to the digit shown, over random runs with gaps, whatever the thermometer's step."""

import numpy as np
import pandas as pd
import pytest

from kit.estimate import rounded
from kit.records import Run, Source, Windows, fingerprint
from kit.widgets.marker import mark_windows

WORK = """async ([seconds, difference, windows]) => {
  const { meanIn, rounded, sumsOf } = await import('/scripts/shared/run/means.js');
  const sums = sumsOf(Float64Array.from(seconds), Float64Array.from(difference, each => each ?? NaN));
  return windows.map(edges => {
    const [before, after] = [0, 4].map(k => meanIn(sums, edges[k], edges[k + 1]));
    return before === null || after === null ? 'no number yet' : `${rounded(after - before, 2)} °C`;
  });
}"""


def random_run(seed, step_c):
    """A run with uneven times, gaps, and readings at the step of a display (0: none)."""
    chance = np.random.default_rng(seed)
    seconds = np.cumsum(chance.choice([1.0, 2.0, 2.5, 7.3], 400)) - 1
    pair = 20 + np.cumsum(chance.normal(0, 0.05, (2, 400)), axis=1)
    pair = np.round(pair / step_c) * step_c if step_c else pair
    pair[chance.random((2, 400)) < 0.2] = np.nan
    pair[:, 150:190] = np.nan
    frame = pd.DataFrame({"treated": pair[0], "control": pair[1]}, index=pd.Index(seconds, name="elapsed_s"))
    return Run(frame, f"random-{seed}", Source("random.csv", fingerprint(frame)), kind="simulated")


def placings(seed, run, count=60):
    """Six ascending edges in s, to the millisecond, as a hand leaves them; many on a reading, some in the gap."""
    chance, seconds = np.random.default_rng(seed), run.readings.index.to_numpy()
    for _ in range(count):
        edges = np.sort(chance.choice(seconds, 6, replace=False)) + chance.choice([0, 0, 0.4], 6)
        yield np.sort(np.clip(edges, seconds[0], seconds[-1])).round(3).tolist()


@pytest.mark.parametrize("step_c", [0, 0.1, 0.05, 0.5])
def test_browser_and_kernel_say_the_same(loader, tmp_path, step_c):
    texts = []
    for seed in range(5):
        run = random_run(seed, step_c)
        marker, windows = mark_windows(run, folder=tmp_path), list(placings(seed, run))
        difference = [None if np.isnan(each) else each for each in run.difference().tolist()]
        shown = loader.evaluate(WORK, [run.readings.index.tolist(), difference, windows])
        for edges, text in zip(windows, shown):
            marker._handle_custom_msg({"kind": "move", "edges": edges, "gesture": "test", "number": "1"}, [])
            assert marker.windows == Windows.of_seconds(edges) and text == marker.answer["value"]
            texts.append(text)
    assert len(texts) == 300 and len(set(texts)) > 40 and 0 < texts.count("no number yet") < 150


@pytest.mark.parametrize("value", [0.125, 0.375, -0.125, 1.115, 1.005, -0.004, 2.5, 0.145, -1.285, 1e-12, 12.345])
def test_halves_are_rounded_as_python_rounds_them(loader, value):
    assert loader.evaluate("async value => (await import('/scripts/shared/run/means.js')).rounded(value, 2)", value) == rounded(value, 2)
