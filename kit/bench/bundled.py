"""The recipes of the bundled runs in `datasets/`: an invented science club whose groups are named after rocks."""

from dataclasses import replace

from kit.bench.recipe import Recipe

# The seeds of basalt and reference were picked from thirty as usual ones, without a caution, that of gneiss-short from three as one whose
# rise stays open; the others are as they came.
BASALT = Recipe(seed=223, nudge=0.004, unequal=0.003, offset_c=0.42, gas_ceiling_ppm=1e6)
DOLOMITE = Recipe(seed=103, step_s=5, mouth_cm=6.6, probe_k=1.5, offset_c=-0.14, nudge=0.02, gas_ceiling_ppm=10_000)
FLINT = Recipe(seed=104, step_s=1, mouth_cm=6.2, probe_k=1.2, offset_c=-0.31, noise_c=0.02, nudge=0.025)
MARBLE = Recipe(seed=106, mouth_cm=6.7, probe_k=1.4, lamp=1.04, offset_c=0.02, correlation_s=20, nudge=0.03)
PUMICE = Recipe(seed=107, step_s=10, gas_l=1.7, offset_c=-0.08, nudge=0.028)

# One run of each group: the same plan, benches a little unlike. All lamps came to stand a little nearer to the left, where the treated
# vessels stood, when the gas went in; one group's was knocked. Four groups read again with the vessels' places changed.
CLASS = {
    "basalt": BASALT,
    "chert": Recipe(seed=102, mouth_cm=6.5, unequal=0.01, offset_c=0.05, nudge=0.022),
    "dolomite": DOLOMITE,
    "flint": FLINT,
    "gneiss": Recipe(seed=105, gas_l=1.1, unequal=-0.006, offset_c=0.11, nudge=0.018, gas_ceiling_ppm=1e6),
    "marble": MARBLE,
    "pumice": PUMICE,
    "slate": Recipe(seed=108, step_s=5, mouth_cm=6.4, nudge=0.2, offset_c=0.27, noise_c=0.02, room=True),
}
CANISTER = Recipe(offset_c=-0.08, gas_ceiling_ppm=1e6)
GLASS = Recipe(
    dark=True, volume_l=0.35, depth_cm=9, mouth_cm=7, gas_l=0.5, fizz_s=5, filling="below", gas_at_min=10, watch_min=20,
    warmed_min=10, step_s=60, display_c=0.5, noise_c=0.12, bath_c=38, gas_colder_k=3, draught_ml_s=0.3,
)  # fmt: skip
SINGLE = {
    "basalt": BASALT,
    "basalt-covered": replace(BASALT, seed=131, covered=True),
    "basalt-covered-shaded": replace(BASALT, seed=132, covered=True, shaded=True),
    "basalt-filter": replace(BASALT, seed=121, filtered=True),
    "basalt-swapped": replace(BASALT, seed=122, swapped=True),
    "basalt-long": replace(BASALT, seed=123, watch_min=45.5),
    "chert-early": Recipe(seed=124, gas_at_min=4, unequal=0.05, offset_c=0.05, gas_ceiling_ppm=1e6),
    "dolomite": DOLOMITE,
    "flint-air": Recipe(seed=125, gas="air", nudge=0.0, unequal=0.002, offset_c=-0.31),
    "flint-swapped": replace(FLINT, seed=133, swapped=True),
    "gneiss-short": Recipe(seed=127, watch_min=4.5, tile_j_per_k=60, mouth_cm=8, noise_c=0.03, offset_c=0.11, gas_ceiling_ppm=1e6),
    "kitchen-film": replace(GLASS, seed=134, gas="air", gas_l=0, covered="treated"),
    "kitchen-gas": replace(GLASS, seed=135),
    "marble-argon": Recipe(seed=126, gas="argon", offset_c=0.02),
    "marble-swapped": replace(MARBLE, seed=136, swapped=True),
    "pumice-dark": replace(CANISTER, seed=137, dark=True),
    "pumice-shaded": replace(CANISTER, seed=129, shaded=True),
    "pumice-stirred": replace(CANISTER, seed=128, stirred=True),
    "pumice-swapped": replace(PUMICE, seed=138, swapped=True),
    "reference": Recipe(seed=212, step_s=1, noise_c=0.01, room=True, gas_ceiling_ppm=1e6),
    "slate-hand": Recipe(seed=130, step_s=60, display_c=0.5, noise_c=0.1, offset_c=0.4),
}
RECIPES = {**CLASS, **SINGLE}


def example_kind(name):
    """What kind of run a bundled one is, by the words of `kit.analysis.causes.RUNS`: 'gas', 'air', 'covered_shaded'; '' for another bench."""
    recipe = SINGLE.get(name)
    if recipe is None or name.startswith("kitchen"):
        return ""
    changed = [word for word in ("covered", "shaded", "stirred", "filtered", "swapped", "dark") if getattr(recipe, word)]
    return "_".join(changed) or {"CO2": "gas"}.get(recipe.gas, recipe.gas)
