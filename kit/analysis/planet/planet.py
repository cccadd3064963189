"""A planet's balance and the range of its warming by CO2: the answers to lesson 11's questions."""

from dataclasses import dataclass

import numpy as np

from kit.analysis.planet.forcings import Forcing, forcing
from kit.estimate import Estimate, Range, rounded
from kit.physics import planet
from kit.physics import exitance_w_m2, ZERO_C_K
from kit.units import temperature
from kit.words import account, plain, table_html

ALBEDO_LIMIT = 0.01  # how well Earth's reflected share is known, rounded (textbook, from memory)
SURFACE_C = np.linspace(-60, 60, 121)
VERY_LIKELY = 0.90


@dataclass(frozen=True, eq=False)
class PlanetBalance:
    """Where a planet's surface settles: °C bare, and under one layer of air that takes up `absorbed_share` of the infrared.

    `bare_c`, `surface_c`: values; their ranges hold the reflected share ± 0.01. `absorbed_w_m2`: sunlight taken up. `curve`: surface
    temperatures (°C) with the power that leaves to space from each (W/m2).
    """

    sun_w_m2: float
    albedo: float
    absorbed_share: float
    absorbed_w_m2: float
    bare_c: float
    surface_c: float
    bare_range: Range
    surface_range: Range
    curve: dict

    def __str__(self):
        bare, surface = (temperature(each, 1) for each in (self.bare_c, self.surface_c))
        return (
            f"In: {rounded(self.absorbed_w_m2, 1)} W/m². Out equals in at {bare} bare ({self.bare_range}), "
            f"at {surface} under the layer ({self.surface_range}). Observed: about {temperature(planet.SURFACE_K - ZERO_C_K, 0)}."
        )

    def explain(self):
        """How the balance was worked out, with this planet's own numbers."""
        return account(
            f"Sunlight of {self.sun_w_m2:g} W/m² falls on a disc and warms a sphere, so a quarter of it counts; {100 * self.albedo:g} % is "
            f"reflected. {rounded(self.absorbed_w_m2, 1)} W/m² are taken up.",
            f"A bare surface gives off as much at {self.bare_range}.",
            f"Under a layer of air that takes up {100 * self.absorbed_share:g} % of the infrared, and gives half of it back, it takes "
            f"{self.surface_range}.",
        )

    def _repr_html_(self):
        taken_up = f"{rounded(self.absorbed_w_m2, 1)} W/m²"
        rows = [("sunlight taken up", taken_up), ("bare", self.bare_range), ("under the layer", self.surface_range)]
        return table_html(rows, "A planet in balance")

    def to_dict(self):
        return plain(self)


def planet_balance(sun_w_m2=planet.SUN_W_M2, albedo=planet.ALBEDO, absorbed_share=1.0):
    """PlanetBalance for sunlight (W/m2), reflected share (0 to 1) and one layer's share of infrared taken up (0 to 1).

    A Fault names what can't be. Sources: `kit.physics.planet`.
    """
    absorbed = float(planet.absorbed_w_m2(sun_w_m2, albedo))
    near = np.clip(albedo + ALBEDO_LIMIT * np.array([1, 0, -1]), 0, 1)
    bare = planet.bare_rock_k(sun_w_m2, near) - ZERO_C_K
    surface = planet.layered_k(sun_w_m2, near, absorbed_share) - ZERO_C_K
    leaves = exitance_w_m2(SURFACE_C + ZERO_C_K) * (1 - absorbed_share / 2)
    return PlanetBalance(
        sun_w_m2=sun_w_m2,
        albedo=albedo,
        absorbed_share=absorbed_share,
        absorbed_w_m2=absorbed,
        bare_c=float(bare[1]),
        surface_c=float(surface[1]),
        bare_range=Range(float(bare[0]), float(bare[2]), "°C", on_scale=True),
        surface_range=Range(float(surface[0]), float(surface[2]), "°C", on_scale=True),
        curve={"surface_c": SURFACE_C, "leaves_w_m2": leaves},
    )


@dataclass(frozen=True)
class PlanetWarming:
    """Warming by a lasting change of CO2 alone. `in_the_end`, `meanwhile` (after a slow rise of CO2): Estimates, "very likely", 90 %.

    `forcing`: how far the balance is tipped. `likely`, `likely_meanwhile`: the middle 66 %. `by_forcing`: what the forcing's own range makes
    of the warming in the end; all that is wider comes from how strongly clouds, ice and water vapour answer.
    """

    co2_ppm: float
    from_ppm: float
    forcing: Forcing
    in_the_end: Estimate
    likely: Range
    meanwhile: Estimate
    likely_meanwhile: Range
    by_forcing: Range

    def __str__(self):
        return f"{self.forcing} Warming in the end: {self.in_the_end.text}, likely {self.likely}."

    def explain(self):
        """How the warming was worked out, with its own numbers."""
        return account(
            f"More CO2 lets less infrared out: {self.forcing.effective} for {self.from_ppm:g} to {self.co2_ppm:g} ppm.",
            f"The ground and the air warm until as much goes out as comes in. In the end: {self.in_the_end.text}, likely {self.likely}.",
            f"The oceans take long to warm. While CO2 still rises: {self.meanwhile.text}, likely {self.likely_meanwhile}.",
            "The range is wide because clouds, ice and water vapour answer the warming, and nobody knows exactly how strongly. If the forcing "
            f"alone were unsure, it would go from {self.by_forcing}.",
        )

    def _repr_html_(self):
        rows = [("in the end", self.in_the_end.text), ("likely", self.likely), ("meanwhile", self.meanwhile.text)]
        rows.append(("if the forcing alone were unsure", self.by_forcing))
        return table_html([("effective forcing", self.forcing.effective), *rows], f"CO2 from {self.from_ppm:g} to {self.co2_ppm:g} ppm")

    def to_dict(self):
        return plain(self)


def planet_warming(co2_ppm, from_ppm=planet.PREINDUSTRIAL_PPM):
    """PlanetWarming for CO2 in ppm by volume, 150 to 1,000: forcing, and warming as a range from the assessed sensitivity (20,000 draws, one seed).

    CO2 alone: other gases and dust in the air act, too. A Fault names what can't be. Sources: `kit.physics.planet`.
    """
    ends = planet.warming_draws_k(co2_ppm, from_ppm)
    meanwhile = planet.warming_draws_k(co2_ppm, from_ppm, planet.TRANSIENT_K)
    in_the_end = _very_likely(ends)
    return PlanetWarming(
        co2_ppm=co2_ppm,
        from_ppm=from_ppm,
        forcing=forcing(co2_ppm, from_ppm),
        in_the_end=in_the_end,
        likely=_likely(ends),
        meanwhile=_very_likely(meanwhile),
        likely_meanwhile=_likely(meanwhile),
        by_forcing=Range(*sorted(in_the_end.value * each / planet.DOUBLING_W_M2[1] for each in planet.DOUBLING_W_M2[::2]), "°C"),
    )


def _very_likely(draws):
    low, middle, high = (float(each) for each in np.quantile(draws, [0.05, 0.5, 0.95]))
    return Estimate(middle, float(draws.std()), low, high, VERY_LIKELY, "°C")


def _likely(draws):
    return Range(*(float(each) for each in np.quantile(draws, [0.17, 0.83])), "°C")
