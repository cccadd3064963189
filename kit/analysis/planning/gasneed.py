"""The gas, and the soda and acid, that a wanted share of CO2 takes."""

from dataclasses import dataclass

from kit.analysis.basis import safety
from kit.estimate import Range
from kit.physics import dose, filling
from kit.physics import MOLAR_MASS_G
from kit.words import account, plain, table_html


@dataclass(frozen=True)
class GasNeed:
    """What a wanted share (%) takes: litres from filling unmixed from below to mixing behind a headspace, grams to match."""

    share: float
    vessel_l: float
    litres: Range
    bicarbonate_g: Range
    acid_g: Range
    acid: str
    cautions: tuple

    def __str__(self):
        weighed = f"{self.bicarbonate_g} of bicarbonate and {self.acid_g} of {self.acid} acid"
        return f"{self.share:g} % of CO2 in {self.vessel_l:g} L takes {self.litres}: {weighed}."

    def explain(self):
        """A short plain account of where the two ends come from."""
        return account(
            f"The low end lets the gas lie on the floor and lift the air out: {self.share:g} % of {self.vessel_l:g} L.",
            "The high end lets it mix on its way, so that some flows out again, and leaves as much in the water as the water can hold.",
            f"From the amount of gas follow {self.bicarbonate_g} of bicarbonate, and the {self.acid} acid that just uses it up.",
        )

    def _repr_html_(self):
        rows = [("gas", self.litres), ("bicarbonate", self.bicarbonate_g), (f"{self.acid} acid", self.acid_g)]
        return table_html(rows, f"For {self.share:g} % of CO2 in {self.vessel_l:g} L")

    def to_dict(self):
        return plain(self)


def gas_needed(share, vessel_l=1.5, *, headspace_l=0.25, water_ml=100.0, room_c=20.0, acid="citric"):
    """GasNeed for a wanted share of CO2 (%, below 100) in an open vessel (L), gas made in a bottle with a headspace (L) over water (mL).

    The upper end mixes, loses to the water what it can hold at `room_c` (°C), and leaves a tenth unreacted, as exact mixes do; the
    lower end fills from below and loses nothing.
    A Fault names a value that can't be. Mass balances and stoichiometry: `kit.physics.gas.filling`, `kit.physics.gas.dose`.
    """
    low = float(filling.gas_for_layered_share_l(share / 100, vessel_l))
    high = float(filling.gas_for_headspace_share_l(share / 100, vessel_l, headspace_l))
    molar_l = float(dose.gas_volume_l(1, room_c))
    moles = low / molar_l, (high / molar_l + float(dose.dissolved_mol(water_ml, room_c))) / (1 - dose.UNREACTED)
    soda = Range(*(each * MOLAR_MASS_G["bicarbonate"] for each in moles), "g")
    sour = Range(*(float(dose.acid_needed_g(each, acid)) for each in (soda.low, soda.high)), "g")
    return GasNeed(share, vessel_l, Range(low, high, "L"), soda, sour, acid, safety("ventilate", "way out", "eyes"))
