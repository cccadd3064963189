"""From a recipe to the temperatures themselves, before any thermometer adds its noise: two open vessels, one lamp, stated causes."""

from functools import lru_cache

import numpy as np

from kit.physics import AIR_J_M3_K, CAUSES, Setting, Vessel, contents_of, flip_share, pair_course

# The usual set-up, estimated (no source): an open 1.5 L canister of thin plastic, 10 cm wide inside, a dark card in it, a 75 W lamp.
# By square metre of the inside, so that a jar or a glass can take its place.
WALL_J_M2_K, GAS_TO_WALL_W_M2_K, WALL_TO_ROOM_W_M2_K, THINGS_J_M2_K, PROBE_LAG_S = 1775.0, 3.85, 7.4, 3.3, 12.0
USUAL_M2 = 0.0676
PLUME_M3_J = 2e-6  # what the warm card's plume carries out for each joule, where a fifth of its work mixes (our estimate)
FILTER_PASSES = 0.5  # of a filament's light; a tank of water takes out all beyond about 1.4 µm, so CO2's bands, too (our estimate)
OUTSIDE_PPM = 420.0

# Letters of what the gas may do (`kit.physics.CAUSES`), and of what the bench may do by itself: lamp touched, sides unlike, a
# thermometer that drifts, film over one vessel alone.
GAS_LETTERS, BENCH_LETTERS = CAUSES, "fstk"


def temperatures(recipe, times_s):
    """°C that thermometers without noise would show at seconds within the record: (treated, control)."""
    rises = recipe.room_c + followed(recipe).at(times_s + 60 * recipe.warmed_min)
    return rises[:, 0] + recipe.offset_c + recipe.drift_c_per_min * times_s / 60, rises[:, 1]


def gas_share(recipe, times_s):
    """Share of CO2 or argon (0 to 1) in the treated vessel at seconds within the record: it thins as in any open vessel."""
    return followed(recipe).at(times_s + 60 * recipe.warmed_min, "share")[:, 0] * (recipe.gas != "air")


@lru_cache(maxsize=32)
def followed(recipe):
    """The `Course` of a recipe's two vessels since lamp or water, last axis (treated, control): kelvin over the room."""
    return pair_course(*parts(recipe), recipe.times_s[-1] + 60 * recipe.warmed_min)


def effects_at(recipe, moments_s, sets, bench=BENCH_LETTERS):
    """treated - control (K) at moments (s), without offset, with only these sets of gas causes at work: shape (moments, sets).

    Every set sees the gas as it really stays and goes. `bench`: letters of what the bench itself may do.
    """
    since_s = np.asarray(moments_s) + 60 * recipe.warmed_min
    found = pair_course(*parts(recipe, bench), since_s[-1], at_work=(GAS_LETTERS, *sets)).at(since_s)
    drift = recipe.drift_c_per_min * np.asarray(moments_s) / 60 * ("t" in bench)
    return found[:, 1:, 0] - found[:, 1:, 1] + drift[:, None]


def parts(recipe, bench=BENCH_LETTERS):
    """(vessel, contents, setting) of a recipe, for `kit.physics.pair_course`."""
    size = inside_m2(recipe.volume_l, recipe.depth_cm / 100) / USUAL_M2
    contents = contents_of(recipe.gas, recipe.volume_l, recipe.depth_cm / 100, recipe.lamp_k, layered=recipe.layered)
    return vessel_of(recipe), contents, _setting(recipe, size, bench)


def vessel_of(recipe):
    """The `Vessel` of a recipe."""
    area = inside_m2(recipe.volume_l, recipe.depth_cm / 100)
    return Vessel(
        gas_j_per_k=1e-3 * recipe.volume_l * AIR_J_M3_K + THINGS_J_M2_K * area + recipe.tile_j_per_k,
        wall_j_per_k=recipe.thick * WALL_J_M2_K * area,
        gas_to_wall_w_per_k=GAS_TO_WALL_W_M2_K * area,
        wall_to_room_w_per_k=WALL_TO_ROOM_W_M2_K * area,
        probe_lag_s=PROBE_LAG_S,
        mouth_m=recipe.mouth_cm / 100,
        exchange=recipe.exchange,
        draught_m3_s=1e-6 * recipe.draught_ml_s,
        plume_m3_j=PLUME_M3_J,
        volume_l=recipe.volume_l,
        depth_m=recipe.depth_cm / 100,
    )


def inside_m2(volume_l, depth_m):
    """Area (m2) of floor and wall of a round vessel of that volume and depth."""
    floor = 1e-3 * volume_l / depth_m
    return floor + depth_m * 2 * np.sqrt(np.pi * floor)


def _setting(recipe, size, bench):
    left = np.array([1, -1]) * (-1 if recipe.swapped else 1)  # +1 for the vessel on the left
    unequal, nudge = recipe.unequal * ("s" in bench), recipe.nudge * ("f" in bench)
    before, after = (recipe.lamp * (1 + lean / 2 * left) for lean in (unequal, unequal + nudge))
    film = np.array([1.0, 0.0]) * ("k" in bench) if recipe.covered == "treated" else float(recipe.covered)
    return Setting(
        gas_w=size * recipe.card_w,
        wall_w=size * recipe.wall_w,
        light_w=size * recipe.light_w,
        probe_k=recipe.probe_k,
        before=before,
        after=after,
        passes=FILTER_PASSES if recipe.filtered else 1.0,
        bands=0.0 if recipe.filtered else 1.0,
        gas_l=recipe.gas_l,
        gas_at_s=60 * (recipe.gas_at_min + recipe.warmed_min),
        fizz_s=recipe.fizz_s,
        gas_k=-recipe.gas_colder_k * (recipe.gas != "air"),
        from_below=float(recipe.filling == "below"),
        covered=film,
        stirred=float(recipe.stirred),
        shaded=float(recipe.shaded),
        bath_k=recipe.bath_c - recipe.room_c if recipe.dark else np.nan,
    )


def holds_until_min(recipe):
    """Minutes after the gas until when the treated gas outweighs the room's air and holds the mouth shut: None if to the record's end."""
    if recipe.gas == "air":
        return 0.0
    course, filled_s = followed(recipe), parts(recipe)[2].filled_s
    light = course.share[:, 0] <= flip_share(np.maximum(course.gas_k[:, 0], 0), recipe.gas)
    over = course.times_s[light & (course.times_s > filled_s)]
    return float(over[0] / 60 - recipe.gas_at_min - recipe.warmed_min) if len(over) else None
