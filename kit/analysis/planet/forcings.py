"""How far a change of CO2 tips the planet's balance: by the usual formula, and as assessed with the air's quick answers."""

from dataclasses import dataclass

from kit.estimate import Range, rounded
from kit.physics import planet
from kit.words import account, plain, table_html

FORMULA_WITHIN = 0.10  # Myhre et al. 1998 (from memory)


@dataclass(frozen=True)
class Forcing:
    """CO2 from one share to another (ppm): W/m2 by the formula, with its `range` of ± 10 %, and the `effective` forcing, very likely.

    Two quantities: the first is what the gas itself holds back, the second counts what the air does at once in answer.
    """

    co2_ppm: float
    from_ppm: float
    value_w_m2: float
    range: Range
    effective: Range

    def __str__(self):
        return (
            f"CO2 from {self.from_ppm:g} to {self.co2_ppm:g} ppm tips the balance by {rounded(self.value_w_m2, 3)} W/m² "
            f"({self.range} by the formula). The effective forcing, with the air's quick answers: {self.effective}."
        )

    def explain(self):
        """Where both numbers come from."""
        return account(
            "The formula is 5.35 times the logarithm of the ratio: Myhre and others, 1998. It holds for past and near-future CO2.",
            "The effective forcing is assessed, 3.93 ± 0.47 W/m² for a doubling: IPCC, 2021. It is another quantity, so it may differ.",
        )

    def _repr_html_(self):
        return table_html([("by the formula", self.range), ("effective, very likely", self.effective)], str(self))

    def to_dict(self):
        """What JSON can keep."""
        return plain(self)


def forcing(co2_ppm, from_ppm=planet.PREINDUSTRIAL_PPM):
    """`Forcing` of CO2 in ppm by volume, 150 to 1,000. A Fault outside of what the formula was fitted to. Sources: `kit.physics.planet`."""
    value = float(planet.forcing_w_m2(co2_ppm, from_ppm))
    least, _, most = (float(each) for each in planet.effective_forcing_w_m2(co2_ppm, from_ppm))
    ends = sorted((value * (1 - FORMULA_WITHIN), value * (1 + FORMULA_WITHIN)))
    return Forcing(co2_ppm, from_ppm, value, Range(*ends, "W/m²"), Range(least, most, "W/m²"))
