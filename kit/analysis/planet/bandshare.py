"""Which share of its radiation a warm body sends out between two wavelengths."""

from dataclasses import dataclass

from kit.estimate import rounded
from kit.physics import radiation
from kit.words import account, plain, table_html


@dataclass(frozen=True)
class BandShare:
    """The share (%) of a black body's power (kelvin) between two wavelengths (µm). Planck's law has no uncertainty to speak of;
    how black a real body is, nobody has asked here."""

    kelvin: float
    from_um: float
    to_um: float
    share: float

    def __str__(self):
        return f"A black body of {self.kelvin:g} K sends {_percent(self.share)} of its power out between {self.from_um:g} and {self.to_um:g} µm."

    def explain(self):
        """Where the number comes from."""
        return account(
            f"Planck's law gives the power at each wavelength; the curve is highest at {rounded(float(radiation.peak_um(self.kelvin)), 2)} µm.",
            "The share is the area under that curve between the two wavelengths, over the whole area. It holds for a black body.",
        )

    def _repr_html_(self):
        return table_html([("share", _percent(self.share)), ("from", f"{self.from_um:g} µm"), ("to", f"{self.to_um:g} µm")], str(self))

    def to_dict(self):
        """What JSON can keep."""
        return plain(self)


def band_share(kelvin, from_um, to_um):
    """`BandShare` of a black body at `kelvin` between two wavelengths in µm. A Fault names what can't be. Source: `kit.physics.light.radiation`."""
    return BandShare(kelvin, from_um, to_um, 100 * float(radiation.blackbody_share(kelvin, from_um, to_um)))


def _percent(share):
    return f"{rounded(share, 0 if share >= 10 else 2)} %" if share >= 0.005 else "less than 0.01 %"
