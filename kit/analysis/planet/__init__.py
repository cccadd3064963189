"""From vessel to planet: radiation, balance, the measured CO2 record, and what carries over."""

from kit.analysis.planet.bandshare import band_share, BandShare
from kit.analysis.planet.carryover import carries_over, CarryOver
from kit.analysis.planet.co2record import co2_record, Co2Record
from kit.analysis.planet.forcings import forcing, Forcing
from kit.analysis.planet.planet import planet_balance, planet_warming, PlanetBalance, PlanetWarming
from kit.analysis.planet.spectra import radiation_curves, Spectra

__all__ = [
    "band_share", "BandShare", "carries_over", "CarryOver", "co2_record", "Co2Record", "forcing", "Forcing", "planet_balance",
    "planet_warming", "PlanetBalance", "PlanetWarming", "radiation_curves", "Spectra",
]  # fmt: skip
