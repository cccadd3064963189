"""What could have warmed the treated vessel more: rival causes, each with a computed range, beside the measured effect.

Sizes can't single out a cause. They say which causes could reach the measured number, and which run would tell them apart.
"""

from dataclasses import dataclass
from math import isfinite

from kit.analysis.causes.published import PUBLISHED
from kit.analysis.causes.rivals import BY_LETTER, RIVALS, RUNS, Rival, runs_that_separate
from kit.analysis.basis import safety
from kit.analysis.causes.sizes import Scene, excess_k, layer_fades_min, light_taken_up, scene_of, size_of
from kit.estimate import Range
from kit.physics import GASES, one_of
from kit.words import account, listed, plain, table_html

REASONS = {
    "a": "From nothing, if a wall blocks these bands, to all light in them, 3.5 % of a filament's. Reckoned without a wall: {light}.",
    "b": "The gas is warmer than its walls, so swapping infrared with them cools it.",
    "c": "Grows with what is warmer than the wall inside. From good flow to conduction alone. In an open vessel a layer fades within {fades}.",
    "d": "Grows with the light on the thermometer. From flow past it to conduction alone.",
    "e": "Minutes only: the room gives the heat back before the reading.",
    "f": "Nobody can compute it. An air run through the same tube measures it.",
    "g": "Changes how fast, not how far.",
}
MEASURED_BY_AIR = "Measured by your air run: same tube, same handling, no gas."


@dataclass(frozen=True)
class Cause:
    """One rival with its size (°C, at the time of reading), the reasons for the range, and how it stands to the measured effect.

    `standing`: "could alone", "too small alone", "other way", "too large" (its least is above the measured) or "not compared".
    """

    rival: Rival
    size: Range
    reason: str
    standing: str

    def __str__(self):
        return f"{self.rival.letter} {self.rival.name}: {self.size}. {self.reason}"


@dataclass(frozen=True)
class CauseBudget:
    """The rival causes beside the measured effect (an Estimate, or None). `verdict` is always "cannot tell": sizes never settle a cause."""

    causes: tuple
    measured: object
    gas: str
    scene: Scene
    excess: Range
    together: Range
    next_runs: tuple
    published: tuple
    cautions: tuple
    verdict: str = "cannot tell"

    @property
    def could_alone(self):
        """Letters of the causes whose range meets the measured interval."""
        return tuple(each.rival.letter for each in self.causes if each.standing == "could alone")

    @property
    def reason(self):
        """Why these sizes don't settle it, and what would help."""
        if self.measured is None:
            return f"No effect with a range was given. Together the causes could add {self.together}."
        able = listed(self.could_alone) if self.could_alone else "none"
        reach = f"Of {len(self.causes)} causes, {able} could reach {self.measured.text} alone; several could together."
        return f"{reach} Runs that tell them apart: {listed(RUNS[run] for run in self.next_runs[:3])}."

    def __str__(self):
        return f"Why it got warmer: {self.verdict} from sizes. {self.reason}"

    def explain(self):
        """The causes one by one: how large each could be, and where that range comes from."""
        return account(*self.causes, self.reason)

    def _repr_html_(self):
        rows = [(f"{each.rival.letter} {each.rival.name}", f"{each.size}: {each.standing}") for each in self.causes]
        return table_html(rows, f"What {self.gas} could have done, beside {self.measured.text if self.measured else 'no measured effect'}")

    def to_dict(self):
        return plain(self)


def possible_causes(effect=None, *, gas="CO2", air_run=None, **scene):
    """CauseBudget: seven rival causes with the size each could have in a stated vessel, beside a measured effect.

    `effect` and `air_run`: an Effect or an Estimate in °C. An air run sets the range of the disturbance. `gas`: CO2, argon, nitrogen,
    helium or air. Further keywords are inputs of `Scene`, numbers or pairs: `possible_causes(effect, irradiance_w_m2=(60, 120))`.
    A Fault names what can't be. Sources: `kit.physics`; the vessel's numbers are reckoned.
    """
    one_of(gas, "The gas", GASES)
    measured, sham = _estimate(effect), _estimate(air_run)
    place = scene_of({**scene, **({"disturbed_k": (sham.low, sham.high)} if sham else {})})
    causes = tuple(_cause(rival, place, gas, measured, sham) for rival in RIVALS)
    able = [each.rival.letter for each in causes if each.standing == "could alone"]
    return CauseBudget(
        causes=causes,
        measured=measured,
        gas=gas,
        scene=place,
        excess=excess_k(place),
        together=Range(sum(each.size.low for each in causes), sum(each.size.high for each in causes), "°C"),
        next_runs=runs_that_separate(*(able if len(able) > 1 else BY_LETTER)),
        published=PUBLISHED,
        cautions=safety("lamp", "alone", "glass", "way out", "cylinder"),
    )


def _estimate(effect):
    """The Estimate in `effect`, if it has a range at all."""
    found = getattr(effect, "warming", effect)
    return found if found is not None and isfinite(found.low) and isfinite(found.high) else None


def _cause(rival, scene, gas, measured, sham):
    size = size_of(rival.letter, scene, gas)
    return Cause(rival, size, _reason(rival.letter, scene, gas, sham), _standing(size, measured))


def _reason(letter, scene, gas, sham):
    if letter == "f" and sham:
        return MEASURED_BY_AIR
    if letter in "ab" and gas != "CO2":
        return f"There is none: {gas} takes up no infrared."
    return REASONS[letter].format(light=light_taken_up(scene), fades=layer_fades_min(scene, gas))


def _standing(size, measured):
    if measured is None:
        return "not compared"
    if size.meets(measured):
        return "could alone"
    if measured.value * (size.low + size.high) < 0:
        return "other way"
    return "too small alone" if max(abs(size.low), abs(size.high)) < abs(measured.value) else "too large"
