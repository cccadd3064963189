"""The recipes of the bundled runs in `datasets/`: an invented science club whose groups are named after rocks."""

from dataclasses import replace

from kit.bench.recipe import Recipe

# The seeds of basalt and reference were picked from thirty as usual ones, without a caution, that of gneiss-short from three whose rise
# stays open; the others are as they came.
BASALT = Recipe(seed=223, nudge=0.004, unequal=0.003, offset_c=0.42, gas_ceiling_ppm=1e6)
DOLOMITE = Recipe(seed=103, step_s=5, tile_w=0.66, probe_k=1.5, offset_c=-0.14, nudge=-0.004, gas_ceiling_ppm=10_000)

# One run of each group: the same plan, benches a little unlike, and one group whose lamp was knocked when the gas went in.
CLASS = {
    "basalt": BASALT,
    "chert": Recipe(seed=102, share=0.93, tile_w=0.62, unequal=0.01, offset_c=0.05),
    "dolomite": DOLOMITE,
    "flint": Recipe(seed=104, step_s=1, tile_w=0.56, probe_k=1.2, offset_c=-0.31, noise_c=0.02),
    "gneiss": Recipe(seed=105, share=0.82, unequal=-0.006, offset_c=0.11, gas_ceiling_ppm=1e6),
    "marble": Recipe(seed=106, tile_w=0.76, probe_k=1.4, lamp=1.04, offset_c=0.02, correlation_s=20),
    "pumice": Recipe(seed=107, step_s=10, share=0.95, offset_c=-0.08, nudge=0.006),
    "slate": Recipe(seed=108, step_s=5, tile_w=0.64, nudge=0.16, offset_c=0.27, noise_c=0.02, room=True),
}
SINGLE = {
    "basalt": BASALT,
    "basalt-filter": replace(BASALT, seed=121, filtered=True),
    "basalt-swapped": replace(BASALT, seed=122, swapped=True),
    "basalt-long": replace(BASALT, seed=123, watch_min=20.5),
    "chert-early": Recipe(seed=124, gas_at_min=4, unequal=0.05, offset_c=0.05, gas_ceiling_ppm=1e6),
    "dolomite": DOLOMITE,
    "flint-air": Recipe(seed=125, gas="air", nudge=0.002, unequal=0.002, offset_c=-0.31),
    "gneiss-short": Recipe(seed=127, watch_min=4.5, tile_j_per_k=60, tile_w=0.9, probe_k=0.3, offset_c=0.11, gas_ceiling_ppm=1e6),
    "marble-argon": Recipe(seed=126, gas="argon", offset_c=0.02),
    "pumice-stirred": Recipe(seed=128, stirred=True, offset_c=-0.08, gas_ceiling_ppm=1e6),
    "pumice-shaded": Recipe(seed=129, shaded=True, offset_c=-0.08, gas_ceiling_ppm=1e6),
    "slate-hand": Recipe(seed=130, step_s=60, display_c=0.5, noise_c=0.1, offset_c=0.4),
    "reference": Recipe(seed=212, step_s=1, noise_c=0.01, room=True, gas_ceiling_ppm=1e6),
}
RECIPES = {**CLASS, **SINGLE}
