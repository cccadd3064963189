"""Benches with a nature of their own: mouth, lamp and gas of a simulated bench, drawn once for each number."""

import numpy as np

SEED = 1010
# Least and most of what is drawn, in the units of `kit.bench.recipe.Recipe`: plausible benches whose gas outlasts a reading after 10 min.
SPREAD = {
    "mouth_cm": (3.5, 8), "card_w": (0.05, 0.3), "light_w": (0, 6), "probe_k": (0.3, 3), "thick": (0.6, 2), "layered": (0.6, 1),
    "draught_ml_s": (0, 0.6), "gas_l": (1.4, 1.9), "gas_colder_k": (0, 6), "nudge": (-0.015, 0.015), "unequal": (-0.005, 0.005),
    "offset_c": (-0.4, 0.4),
}  # fmt: skip


def hidden_bench(number):
    """Switches of the bench with this number (1, 2, …), for `simulate_run(**hidden_bench(1), …)`. The same number, the same bench.

    `exchange` through the mouth is drawn by its logarithm, half to twice the formula; all else evenly from `SPREAD`. All of it is the
    bench's hidden truth but `mouth_cm`, which a ruler would tell.
    """
    rng = np.random.default_rng((SEED, int(number)))
    nature = {name: round(float(rng.uniform(*ends)), 3) for name, ends in SPREAD.items()}
    return nature | {"mouth_cm": round(nature["mouth_cm"], 1), "exchange": round(float(2 ** rng.uniform(-1, 1)), 3)}
