"""What a lamp, the sun or a warm wall radiates, what a window lets through, and what CO2 can take up of it."""

from dataclasses import dataclass

import numpy as np

from kit.estimate import Range, amount
from kit.physics import absorption, radiation
from kit.words import account, plain, table_html

WAVELENGTHS_UM = np.geomspace(0.2, 100, 600)
SOURCES = {"filament": radiation.FILAMENT_K, "warm wall": radiation.WALL_K}


@dataclass(frozen=True, eq=False)
class Spectrum:
    """One black body: kelvin, power (W/m2), peak (µm), its curve for each µm over its own highest value, and shares of its power in %.

    `visible` 0.38 to 0.75 µm, `near` 0.75 to 2.7, `beyond` 2.7 µm; `in_bands` those of CO2 by name; `passes` the window, a Range.
    """

    name: str
    kelvin: float
    exitance_w_m2: float
    peak_um: float
    curve: np.ndarray
    visible: float
    near: float
    beyond: float
    in_bands: dict
    passes: Range

    def __str__(self):
        parts = f"{_percent(self.visible)} visible, {_percent(self.near)} up to 2.7 µm, {_percent(self.beyond)} beyond"
        return f"{self.name}, {self.kelvin:g} K: {parts}"

    @property
    def taken_up(self):
        """The shares in CO2's bands, in words."""
        return ", ".join(f"{_percent(share)} near {name}" for name, share in self.in_bands.items())


@dataclass(frozen=True, eq=False)
class Spectra:
    """Spectra side by side, with a window and a path of CO2. `wavelengths_um` go with each curve; `window_um` are the two edges.

    `emissivity`: of this CO2 at room temperature, from two published correlations and their spread.
    """

    sources: tuple
    wavelengths_um: np.ndarray
    window: str
    window_um: tuple
    bands_um: dict
    emissivity: Range
    path_m: float
    share: float

    def __str__(self):
        passed = f"{self.window} passes " + ", ".join(f"{each.passes} of the {each.name}" for each in self.sources)
        sources = ". ".join(str(each) for each in self.sources)
        return f"{sources}. {passed}. CO2 over {100 * self.path_m:g} cm: emissivity {self.emissivity}."

    def explain(self):
        """Where each source radiates, and what of it CO2 could take up."""
        told = [f"{each}. In CO2's bands: {each.taken_up}. {self.window} passes {each.passes}." for each in self.sources]
        return account(*told, f"This CO2, {100 * self.path_m:g} cm of it, has an emissivity of {self.emissivity}.")

    def _repr_html_(self):
        rows = [(each.name, f"{each}; in CO2's bands {each.taken_up}") for each in self.sources]
        return table_html([*rows, ("emissivity of the CO2", self.emissivity)], f"Radiation, and what {self.window} passes")

    def to_dict(self):
        return plain(self)


def radiation_curves(sources=None, *, window="soda-lime glass", path_m=0.1, share=1.0):
    """Spectra of black bodies, `{"filament": 2700, "warm wall": 310}` (kelvin), a window by name and CO2 of a share over a path (m).

    A Fault names what can't be. Sources: `kit.physics.light.radiation`, `kit.physics.light.absorption`.
    """
    named = SOURCES if sources is None else sources
    low, high = absorption.co2_emissivity_range(path_m, share)
    return Spectra(
        sources=tuple(_spectrum(name, kelvin, window) for name, kelvin in named.items()),
        wavelengths_um=WAVELENGTHS_UM,
        window=window,
        window_um=radiation.WINDOWS_UM[window],
        bands_um=absorption.CO2_BANDS_UM,
        emissivity=Range(float(low), float(high), ""),
        path_m=path_m,
        share=share,
    )


def _spectrum(name, kelvin, window):
    passed = [100 * float(each) for each in radiation.passed_share(kelvin, window)]
    visible, near, beyond = 100 * radiation.blackbody_share(kelvin, [0.38, 0.75, 2.7], [0.75, 2.7, np.inf])
    peak = float(radiation.peak_um(kelvin))
    return Spectrum(
        name=name,
        kelvin=kelvin,
        exitance_w_m2=float(radiation.exitance_w_m2(kelvin)),
        peak_um=peak,
        curve=radiation.planck_w_m2_um(WAVELENGTHS_UM, kelvin) / radiation.planck_w_m2_um(peak, kelvin),
        visible=float(visible),
        near=float(near),
        beyond=float(beyond),
        in_bands=dict(zip(absorption.CO2_BANDS_UM, 100 * absorption.co2_band_shares(kelvin))),
        passes=Range(*passed, "%"),
    )


def _percent(share):
    return f"{amount(share)} %" if share >= 0.01 else "under 0.01 %"
