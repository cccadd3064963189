"""Gas from acid and bicarbonate: how much CO2 forms, which part runs out first, what the water keeps.

Reactions: NaHCO3 gives one CO2 for each acidic hydrogen (3 citric, 2 tartaric, 1 acetic), so 3 NaHCO3 + citric acid -> 3 CO2.
"""

import numpy as np

from kit.physics.checking import bounded, one_of
from kit.physics.constants import GAS_CONSTANT, MOLAR_MASS_G, STANDARD_PRESSURE_PA, ZERO_C_K
from kit.physics.gas.air import vapour_pressure_pa

ACIDIC_HYDROGENS = {"citric": 3, "citric monohydrate": 3, "tartaric": 2, "acetic": 1}
TABLET_BICARBONATE_G, TABLET_CITRIC_G = 1.9, 1.0  # an effervescent antacid tablet, from memory; makers differ
UNREACTED, SURPLUS = 0.10, 1.3  # left at the exact mix (5 to 10 % by equilibrium, estimated); such a surplus of either ends it
VINEGAR_G_L = 50.0  # acetic acid in household vinegar of 5 % (common practice, no source)


def co2_mol(bicarbonate_g, acid_g, acid="citric"):
    """Moles of CO2 from grams of baking soda and of a solid acid, all mixed and all reacted: what runs out first sets the amount.

    Stoichiometry; molar masses as in `kit.physics.constants` (IUPAC 2021). Grams 0 or more, numbers or arrays.
    """
    return np.minimum(_bicarbonate_mol(bicarbonate_g), _hydrogen_mol(acid_g, acid))


def least_reacted(bicarbonate_g, acid_g, acid="citric"):
    """Share (0 to 1) of the stoichiometric CO2 that comes at least: weak acids leave up to a tenth unreacted where the mix is exact.

    Equilibrium of carbonic acid (pK 6.35) with the acid's last hydrogen (citric 6.40, from memory), estimated; less and less with a
    surplus of either, none from 30 % on. Grams.
    """
    soda, hydrogen = _bicarbonate_mol(bicarbonate_g), _hydrogen_mol(acid_g, acid)
    with np.errstate(divide="ignore", invalid="ignore"):
        surplus = np.abs(np.log(hydrogen / soda)) / np.log(SURPLUS)
    return 1 - UNREACTED * np.nan_to_num(np.maximum(1 - surplus, 0))


def limiting_reagent(bicarbonate_g, acid_g, acid="citric"):
    """Which runs out first: "bicarbonate", the acid's name, or "neither", for grams of each. Stoichiometry (IUPAC 2021, as `co2_mol`)."""
    soda, hydrogen = _bicarbonate_mol(bicarbonate_g), _hydrogen_mol(acid_g, acid)
    even = np.isclose(soda, hydrogen, rtol=1e-6)
    return np.where(even, "neither", np.where(soda < hydrogen, "bicarbonate", acid))[()]


def acid_needed_g(bicarbonate_g, acid="citric"):
    """Grams of acid that just use up so many grams of baking soda. Stoichiometry (IUPAC 2021, as `co2_mol`)."""
    return _bicarbonate_mol(bicarbonate_g) / ACIDIC_HYDROGENS[one_of(acid, "The acid", ACIDIC_HYDROGENS)] * MOLAR_MASS_G[acid]


def vinegar_acid_g(vinegar_ml, strength_g_l=VINEGAR_G_L):
    """Grams of acetic acid in mL of vinegar; 5 % vinegar holds about 50 g/L (common practice, no source; labels differ)."""
    strength = bounded(strength_g_l, "The vinegar's strength", 0, 300, "g/L")
    return bounded(vinegar_ml, "The vinegar", 0, np.inf, "mL") / 1000 * strength


def tablets_mol(tablets):
    """Least and most moles of CO2 from effervescent antacid tablets (a pair): makers differ, so it is a range.

    About 1.9 g of bicarbonate and 1.0 g of citric acid each (from memory). Least: the citric acid alone reacts. Most: other acids
    in the tablet use up the rest of the bicarbonate.
    """
    count = bounded(tablets, "The number of tablets", 0, np.inf)
    least = co2_mol(count * TABLET_BICARBONATE_G, count * TABLET_CITRIC_G)
    return least, _bicarbonate_mol(count * TABLET_BICARBONATE_G)


def gas_volume_l(moles, temperature_c=25.0, pressure_pa=STANDARD_PRESSURE_PA):
    """Litres that moles of dry gas fill at °C and Pa. Ideal gas, R from CODATA 2018; real CO2 fills 0.5 % less at 25 °C."""
    kelvin = bounded(temperature_c, "The temperature", -50, 120, "°C") + ZERO_C_K
    pressure = bounded(pressure_pa, "The pressure", 20_000, 200_000, "Pa", "If your barometer shows hPa, multiply by 100.")
    return 1000 * bounded(moles, "The amount of gas", 0, np.inf, "mol") * GAS_CONSTANT * kelvin / pressure


def wet_gas_volume_l(moles, temperature_c=25.0, pressure_pa=STANDARD_PRESSURE_PA):
    """Litres that moles of gas fill, with the water vapour that comes along from the solution, at °C and Pa: 3 % more at 25 °C.

    Dalton's law: the gas has the pressure left over by the vapour (IAPWS R7-97(2012), `kit.physics.gas.air.vapour_pressure_pa`).
    """
    dry = bounded(pressure_pa, "The pressure", 20_000, 200_000, "Pa", "If your barometer shows hPa, multiply by 100.")
    return gas_volume_l(moles, temperature_c, pressure_pa) * dry / (dry - vapour_pressure_pa(temperature_c))


def solubility_mol_l_atm(water_c):
    """Moles of CO2 that a litre of fresh water holds for each atmosphere of CO2 over it, at 0 to 40 °C.

    Weiss, Marine Chemistry 2:203, 1974, table 1 at salinity 0, doi:10.1016/0304-4203(74)90015-2. Sander's compilation (Atmos.
    Chem. Phys. 23:10901, 2023) has 0.034 at 25 °C.
    """
    hundreds = (bounded(water_c, "The water's temperature", 0, 40, "°C") + ZERO_C_K) / 100
    return np.exp(-58.0931 + 90.5069 / hundreds + 22.2940 * np.log(hundreds))


def dissolved_mol(water_ml, water_c=20.0, pressure_pa=STANDARD_PRESSURE_PA):
    """Moles of CO2 that stay in mL of water at °C once gas and water are in balance, under pure moist CO2 at Pa: an upper limit.

    Henry's law with `solubility_mol_l_atm` (Weiss 1974) and the CO2's pressure less the vapour's. Fizzing water can hold more
    for a while; salt in it holds less.
    """
    litres = bounded(water_ml, "The water", 0, np.inf, "mL") / 1000
    pressure = bounded(pressure_pa, "The pressure", 20_000, 200_000, "Pa", "If your barometer shows hPa, multiply by 100.")
    return litres * solubility_mol_l_atm(water_c) * (pressure - vapour_pressure_pa(water_c)) / STANDARD_PRESSURE_PA


def _bicarbonate_mol(grams):
    return bounded(grams, "The bicarbonate", 0, np.inf, "g") / MOLAR_MASS_G["bicarbonate"]


def _hydrogen_mol(grams, acid):
    hydrogens = ACIDIC_HYDROGENS[one_of(acid, "The acid", ACIDIC_HYDROGENS)]
    return bounded(grams, "The acid", 0, np.inf, "g") / MOLAR_MASS_G[acid] * hydrogens
