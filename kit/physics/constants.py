"""Constants of physics and chemistry, each once, with its unit in the name or beside it.

Fundamental constants: CODATA 2018 (Tiesinga et al., Rev. Mod. Phys. 93:025010, 2021); all but the Stefan–Boltzmann and Wien
constants, which are rounded there, are exact by the definition of the SI. The tests compare each with scipy.constants.
"""

GAS_CONSTANT = 8.314462618  # J/mol/K
PLANCK_J_S = 6.62607015e-34
LIGHT_SPEED_M_S = 299_792_458.0
BOLTZMANN_J_K = 1.380649e-23
STEFAN_BOLTZMANN = 5.670374419e-8  # W/m2/K4
WIEN_UM_K = 2897.771955  # wavelength of the peak times temperature
GRAVITY_M_S2 = 9.80665  # standard acceleration, ISO 80000-3
ZERO_C_K = 273.15
ROOM_K = 294.15  # a room at 21 °C, where nothing else is said
STANDARD_PRESSURE_PA = 101_325.0
DRY_AIR_J_KG_K = 287.05287  # gas constant of dry air, ISO 2533:1975

# g/mol, from the standard atomic weights (IUPAC 2021), as the package chemicals 1.5.2 gives them; the tests compare.
MOLAR_MASS_G = {
    "bicarbonate": 84.00661,
    "citric": 192.12352,
    "citric monohydrate": 210.13880,
    "tartaric": 150.08684,
    "acetic": 60.05196,
    "CO2": 44.0095,
    "air": 28.96546,
    "nitrogen": 28.0134,
    "argon": 39.948,
    "helium": 4.002602,
}
ROOM_CO2_SHARE = 420e-6  # outdoor air in the early 2020s, rounded (NOAA Global Monitoring Laboratory, from memory)
