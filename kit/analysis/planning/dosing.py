"""How much gas a dose makes, what share of CO2 it gives in the vessel, and what the room gets of it. All as ranges."""

from dataclasses import dataclass

import numpy as np

from kit.analysis.basis import safety
from kit.estimate import amount, Range, rounded
from kit.faults import Caution, Fault
from kit.physics import dose, filling, room
from kit.physics import bounded, ROOM_CO2_SHARE, STANDARD_PRESSURE_PA, vapour_pressure_pa
from kit.settings import class_settings
from kit.units import reading
from kit.words import account, counted, plain, table_html

CURVE_MINUTES = np.linspace(0, 5, 121)


@dataclass(frozen=True)
class Setup:
    """What the gas meets: vessel and headspace of the bottle it is made in (L), water (mL, °C), room (°C, Pa, m3), number of groups."""

    vessel_l: float = 1.5
    headspace_l: float = 0.25
    water_ml: float = 100.0
    water_c: float = 20.0
    room_c: float = 20.0
    pressure_pa: float = STANDARD_PRESSURE_PA
    room_m3: float = 150.0
    groups: float = 8


@dataclass(frozen=True, eq=False)
class GasDose:
    """Gas from a dose. Litres of dry CO2 at the room's temperature and pressure; shares of CO2 by volume, in %.

    `litres` counts what may stay dissolved, or unreacted where the mix is exact, at its low end; `share` runs from
    mixing behind the bottle's headspace to filling from
    below, unmixed. `curve` has minutes and the least and most share for either way of filling. `limiting` runs out first.
    """

    made_from: str
    limiting: str
    moles: Range
    litres: Range
    dissolved_l: float
    with_vapour_l: float
    share_mixed: Range
    share_from_below: Range
    share: Range
    room_ppm: float
    breath_ppm_per_min: Range
    curve: dict
    setup: Setup
    cautions: tuple

    def __str__(self):
        return (
            f"{self.litres} of CO2 from {self.made_from}. Share in a vessel of {self.setup.vessel_l:g} L: "
            f"{self.share_mixed} if it mixes, {self.share_from_below} if it fills from below."
        )

    def rows(self):
        """Name and value of each part, for tables."""
        yield "CO2 made", self.moles
        yield "fills, dry", self.litres
        yield "may stay in the water, up to", Range(self.dissolved_l, self.dissolved_l, "L")
        yield "runs out first", self.limiting
        yield "share if it mixes", self.share_mixed
        yield "share if it fills from below", self.share_from_below
        yield f"{self.setup.groups:g} groups add to the room, at most", Range(self.room_ppm, self.room_ppm, "ppm")
        yield "thirty people add by breathing", self.breath_ppm_per_min

    def explain(self):
        """A short plain account of how the gas and its share were worked out, with this dose's own numbers."""
        vessel, head = self.setup.vessel_l, self.setup.headspace_l
        return account(
            f"{self.made_from[0].upper()}{self.made_from[1:]} give {self.moles} of CO2. What runs out first: {self.limiting}.",
            f"At {reading(self.setup.room_c)} that fills {self.litres}. The low end leaves {amount(self.dissolved_l)} L in the water.",
            f"Gas that mixes on its way, behind {head:g} L of air in the bottle, takes air out with it: {self.share_mixed} of CO2 in {vessel:g} L.",
            f"Gas that lies on the floor and lifts the air out: {self.share_from_below}. What really happens lies between: {self.share}.",
            f"{self.setup.groups:g} groups add at most {rounded(self.room_ppm, 0)} ppm to the room if nobody airs it.",
        )

    def _repr_html_(self):
        return table_html(self.rows(), f"{self.made_from} in a {self.setup.vessel_l:g} L vessel")

    def to_dict(self):
        return plain(self)


def gas_dose(*, tablets=None, bicarbonate_g=None, acid_g=None, acid="citric", vinegar_ml=None, **setup):
    """GasDose of tablets, or of bicarbonate (g) with a solid acid (g; citric, citric monohydrate, tartaric) or 5 % vinegar (mL).

    Without any of these it is the class's usual dose. Keywords of `Setup` change what the gas meets: `gas_dose(tablets=4, vessel_l=1.5,
    water_c=15)`. A Fault names a value that can't be, or says what is missing. Stoichiometry, Henry's law and mass balances:
    `kit.physics.gas.dose`, `kit.physics.gas.filling`.
    """
    place = _setup(setup)
    if tablets is bicarbonate_g is acid_g is vinegar_ml is None:
        return gas_dose(**class_settings().dose, **setup)
    if vinegar_ml is not None:
        acid, acid_g = "acetic", dose.vinegar_acid_g(vinegar_ml)
    if tablets is not None and bicarbonate_g is None and acid_g is None:
        return _dose(counted(tablets, "tablet"), "it depends on the tablets' other acids", dose.tablets_mol(tablets), place)
    if tablets is not None or bicarbonate_g is None or acid_g is None:
        raise Fault("Say what makes the gas: tablets=4, or bicarbonate_g=5 with acid_g=5, or bicarbonate_g=10 with vinegar_ml=100.")
    moles = dose.co2_mol(bicarbonate_g, acid_g, acid)
    source = f"{vinegar_ml:g} mL of vinegar" if vinegar_ml is not None else f"{acid_g:g} g of {acid} acid"
    limiting = str(dose.limiting_reagent(bicarbonate_g, acid_g, acid))
    least = moles * dose.least_reacted(bicarbonate_g, acid_g, acid)
    return _dose(f"{bicarbonate_g:g} g of bicarbonate and {source}", limiting, (least, moles), place)


def _setup(changes):
    unknown = sorted(set(changes) - set(Setup.__dataclass_fields__))
    if unknown:
        raise Fault(f"gas_dose knows no {unknown[0]!r}. It knows: {', '.join(Setup.__dataclass_fields__)}.")
    place = Setup(**{"vessel_l": class_settings()["volume_l"], **changes})
    bounded(place.groups, "The number of groups", 1, 1_000)
    return place


def _dose(made_from, limiting, moles, place):
    kept = min(float(dose.dissolved_mol(place.water_ml, place.water_c, place.pressure_pa)), float(moles[0]))
    low, high = (float(dose.gas_volume_l(each, place.room_c, place.pressure_pa)) for each in (moles[0] - kept, moles[1]))
    mixed, layered = _shares(low, high, place)
    added = float(room.room_added_ppm(place.groups * high, place.room_m3))
    return GasDose(
        made_from=made_from,
        limiting=limiting,
        moles=Range(float(moles[0]), float(moles[1]), "mol"),
        litres=Range(low, high, "L"),
        dissolved_l=float(dose.gas_volume_l(kept, place.room_c, place.pressure_pa)),
        with_vapour_l=float(dose.wet_gas_volume_l(moles[1], place.room_c, place.pressure_pa)),
        share_mixed=_percent(mixed),
        share_from_below=_percent(layered),
        share=_percent((mixed[0], layered[1])),
        room_ppm=added,
        breath_ppm_per_min=Range(*map(float, room.breath_ppm_per_min(30, place.room_m3)), "ppm a minute"),
        curve=_curve(low, high, place),
        setup=place,
        cautions=_cautions(added, place),
    )


def _shares(low_l, high_l, place):
    """Least and most share (0 to 1) for mixing, with and without the headspace, and for filling from below. Gases may be arrays.

    The gas comes moist: it is CO2 for the part `dry` (Dalton's law), and takes so much more room.
    """
    dry = 1 - vapour_pressure_pa(place.room_c) / place.pressure_pa
    low, high, vessel = low_l / dry, high_l / dry, place.vessel_l
    mixed = filling.headspace_share(low, vessel, place.headspace_l, 0), filling.mixed_share(high, vessel, 0)
    layered = filling.layered_share(low, vessel, 0), filling.layered_share(high, vessel, 0)
    return tuple([dry * new + ROOM_CO2_SHARE * (1 - new) for new in pair] for pair in (mixed, layered))


def _percent(pair):
    return Range(100 * float(pair[0]), 100 * float(pair[1]), "%")


def _curve(low_l, high_l, place):
    led_in = [filling.led_in_l(total, 60 * CURVE_MINUTES) for total in (low_l, high_l)]
    mixed, layered = _shares(*led_in, place)
    return {"minutes": CURVE_MINUTES, "mixed": 100 * np.array(mixed), "from_below": 100 * np.array(layered)}


def _cautions(added_ppm, place):
    passed = [limit for limit in room.LIMITS if added_ppm >= limit.ppm]
    if passed:
        limit = passed[-1]
        added = f"Without airing, {place.groups:g} groups could add {rounded(added_ppm, 0)} ppm."
        text = f"{added} The limit of {limit.ppm:,} ppm ({limit.over}) is by {limit.by}."
        return (Caution("room limit", text), *safety("ventilate", "way out", "eyes", "tablets"))
    return safety("ventilate", "way out", "eyes", "tablets")
