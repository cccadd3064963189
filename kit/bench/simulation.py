"""The simulated bench: choose the set-up, get a run, analyse it, and only then open the truth."""

import numpy as np
import pandas as pd

from kit.bench.bundled import RECIPES
from kit.bench.model import OUTSIDE_PPM, gas_share, temperatures
from kit.bench.noise import displayed, wander
from kit.bench.recipe import recipe_with
from kit.bench.truth import truth_of
from kit.faults import Fault
from kit.records import fingerprint, Run, Source

SIMULATED = "The simulated bench made these data: nobody measured them."
SHARED_MEMORY_S, GAS_PROBE_SPREAD, GAS_PROBE_STEP_PPM = 180.0, 0.004, 100


def simulate_run(**switches):
    """A `Run` of kind 'simulated' from the vessel model, with noise, display and hidden causes; `reveal(run)` opens its truth.

    `switches`, all with defaults: gas='CO2', 'argon' or 'air'; gas_at_min, watch_min; filling='mixing' or 'below'; stirred, shaded,
    filtered, covered, swapped, dark; volume_l, depth_cm, mouth_cm; step_s, display_c, noise_c, correlation_s, seed; and the hidden
    ones of `kit.bench.recipe.Recipe`, which lists them all with their units. The same switches give the same run. A Fault names a
    switch or a value that the bench does not have.

    Where its 1.5 °C come from: warm air would change places with the room's through a mouth of 6.5 cm; the heavy gas lies still, so
    that the vessel keeps this heat (about 1.3 °C). The thermometer in the beam is cooled less by the gas (about 0.1 °C), lamp light
    taken up adds a little, and infrared exchanged with a wall as warm as the gas does next to nothing. Sources: `kit.physics.heat.courses`.
    """
    recipe = recipe_with(switches)
    return recorded(recipe, f"simulated-{recipe.gas.lower()}-{recipe.seed}")


def reveal(run):
    """The `Truth` behind a simulated or bundled run: true extra warming, the causes that made it, the noise. A Fault for a measured run."""
    recipe = run.recipe or (RECIPES.get(run.name.lower()) if run.kind == "simulated" else None)
    if recipe is None:
        raise Fault(f"Nobody knows the truth behind {run.name}: it was measured. Only simulated and example runs have one.")
    return truth_of(recipe)


def recorded(recipe, name):
    """The run that a logger would have kept on this bench."""
    rng = np.random.default_rng(int(recipe.seed))
    times_s = recipe.times_s
    shared = wander(rng, times_s, recipe.shared_c, SHARED_MEMORY_S)
    own = wander(rng, times_s, recipe.noise_c, recipe.correlation_s, (2,))
    seen = np.array(temperatures(recipe, times_s)) + shared + own
    columns = dict(zip(("treated", "control"), displayed(seen, recipe.display_c)))
    columns |= _room(recipe, times_s, rng) | _gas(recipe, times_s, rng)
    readings = pd.DataFrame(columns, index=pd.Index(times_s, name="elapsed_s"))
    return Run(readings, name, Source(name, fingerprint(readings)), (SIMULATED,), "simulated", recipe=recipe)


def _room(recipe, times_s, rng):
    if not recipe.room:
        return {}
    return {"room": displayed(recipe.room_c + wander(rng, times_s, 0.05, SHARED_MEMORY_S), recipe.display_c)}


def _gas(recipe, times_s, rng):
    """What a gas probe shows: some scatter in proportion, whole hundreds of ppm, and never more than its top end."""
    if recipe.gas_ceiling_ppm is None:
        return {}
    co2 = gas_share(recipe, times_s) * (recipe.gas == "CO2")
    seen = (OUTSIDE_PPM + 1e6 * co2) * (1 + GAS_PROBE_SPREAD * rng.standard_normal(len(times_s)))
    return {"gas_ppm": np.minimum(displayed(seen, GAS_PROBE_STEP_PPM), recipe.gas_ceiling_ppm)}
