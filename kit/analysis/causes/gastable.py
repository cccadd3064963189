"""Gases beside air: how dense they are, how much heat they hold, and how well they carry it to a wall."""

from dataclasses import dataclass

from kit.estimate import Range, amount
from kit.physics import convection, gases
from kit.physics import STANDARD_PRESSURE_PA
from kit.units import about, reading
from kit.words import account, plain, table_html

FLOW = (convection.CONDUCTION, convection.MIXED_FLOW, convection.TURBULENT_FLOW)


@dataclass(frozen=True)
class GasRow:
    """One gas at the table's temperature: density (kg/m3), heat held by volume (J/m3/K), conductivity (W/m/K), viscosity (Pa s).

    `carries`: heat carried to the walls over what air carries, from conduction alone to strong flow. `flowing` leaves out conduction
    alone: what a well-mixed small vessel does. `colder_air_k`: by how much air would have to be colder to be as dense.
    """

    name: str
    density_kg_m3: float
    heat_j_m3_k: float
    conductivity_w_m_k: float
    viscosity_pa_s: float
    carries: Range
    flowing: Range
    colder_air_k: float


@dataclass(frozen=True)
class GasTable:
    """Properties of several gases at one temperature (°C) and pressure (Pa), each within `within` of reference data."""

    rows: tuple
    temperature_c: float
    pressure_pa: float
    within: str = "Reference data differ by at most 0.5 % in density, 1 % in heat capacity, 2 % in conductivity and viscosity."

    def __str__(self):
        parts = [f"{row.name} {row.carries}" for row in self.rows]
        return f"Heat carried to the walls, from lying still to strong flow, air = 1: {'; '.join(parts)}."

    def explain(self):
        """What the columns mean, with this table's own numbers."""
        denser = [f"{row.name} is as dense as air {about(row.colder_air_k, 2)} colder" for row in self.rows if row.colder_air_k > 0]
        return account(
            "Warm gas rises along a warm wall and sinks along a cold one. How much heat it carries depends on its density, the heat it holds, "
            "how it conducts and how thick it flows.",
            f"{'; '.join(denser)}." if denser else "",
            f"{self} {self.within}",
        )

    def _repr_html_(self):
        rows = [(row.name, f"{amount(row.density_kg_m3, 3)} kg/m³, carries {row.carries} of what air carries") for row in self.rows]
        return table_html([*rows, ("how well known", self.within)], f"Gases at {reading(self.temperature_c)}")

    def to_dict(self):
        return plain(self)


def compare_gases(names=("air", "CO2", "argon", "nitrogen", "helium"), temperature_c=26.85, pressure_pa=STANDARD_PRESSURE_PA):
    """GasTable of gases (names, or shares by amount as `{"CO2": 0.5, "air": 0.5}`) at °C and Pa. A Fault names what can't be.

    Sources: `kit.physics.gas.gases`, `kit.physics.heat.convection`.
    """
    return GasTable(tuple(_row(gas, temperature_c, pressure_pa) for gas in names), temperature_c, pressure_pa)


def _row(gas, temperature_c, pressure_pa):
    density = float(gases.density_kg_m3(gas, temperature_c, pressure_pa))
    ratios = convection.conductance_ratio(gas, FLOW, temperature_c, pressure_pa).tolist()
    return GasRow(
        name=gas if isinstance(gas, str) else " + ".join(f"{100 * share:g} % {part}" for part, share in gas.items()),
        density_kg_m3=density,
        heat_j_m3_k=density * float(gases.heat_capacity_j_kg_k(gas, temperature_c, pressure_pa)),
        conductivity_w_m_k=float(gases.conductivity_w_m_k(gas, temperature_c)),
        viscosity_pa_s=float(gases.viscosity_pa_s(gas, temperature_c)),
        carries=Range(min(ratios), max(ratios), ""),
        flowing=Range(min(ratios[1:]), max(ratios[1:]), ""),
        colder_air_k=float(convection.equal_cooling_k(gas, temperature_c)),
    )
