"""From vessel to planet: radiation, balance, the measured CO2 record, and what carries over."""

from kit.analysis.planet.bandshare import band_share, BandShare
from kit.analysis.planet.co2record import Co2Record
from kit.analysis.planet.planet import planet_balance, planet_warming, PlanetBalance, PlanetWarming
from kit.analysis.planet.spectra import Spectra

__all__ = ["band_share", "BandShare", "Co2Record", "planet_balance", "planet_warming", "PlanetBalance", "PlanetWarming", "Spectra"]
