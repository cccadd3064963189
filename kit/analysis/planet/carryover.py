"""What carries over from the vessel to the planet, and what does not."""

from dataclasses import dataclass

from kit.words import account, plain, table_html


@dataclass(frozen=True)
class Parallel:
    """One point of comparison: what it is about, how it is in the vessel and on the planet, and whether it carries over."""

    about: str
    vessel: str
    planet: str
    carries: bool

    @property
    def verdict(self):
        return f"{self.about}: {'carries over' if self.carries else 'does not'}"


@dataclass(frozen=True)
class CarryOver:
    """All points of comparison. `carrying` and `not_carrying` are the two columns of the notebook."""

    parallels: tuple

    @property
    def carrying(self):
        return tuple(each for each in self.parallels if each.carries)

    @property
    def not_carrying(self):
        return tuple(each for each in self.parallels if not each.carries)

    def __str__(self):
        return f"Carries over: {self._named(self.carrying)}. Does not: {self._named(self.not_carrying)}."

    def _named(self, parallels):
        return ", ".join(each.about for each in parallels)

    def explain(self):
        """Each point with the two sides."""
        return account(*(f"{each.verdict}. In the vessel: {each.vessel}. On the planet: {each.planet}." for each in self.parallels))

    def _repr_html_(self):
        rows = [(each.verdict, f"vessel: {each.vessel}; planet: {each.planet}") for each in self.parallels]
        return table_html(rows, "From vessel to planet")

    def to_dict(self):
        return plain(self)


PARALLELS = (
    Parallel("energy balance", "settles where out equals in", "settles where out equals in", True),
    Parallel("a gas that takes up infrared", "takes up a little over 10 cm", "raises the level that radiates to space", True),
    Parallel("the way out", "walls, and air that changes places through the mouth", "radiation to space alone", False),
    Parallel("the light", "a lamp, much of it near infrared", "the sun, hardly any of it where CO2 takes it up", False),
    Parallel("walls", "solid and warm, close around the gas", "none", False),
    Parallel("a lid", "film or a heavy gas keeps the warm air in", "none: its air has nowhere to go", False),
    Parallel("convection", "may be stopped by a lid or a dense layer", "goes on, and carries heat upwards", False),
    Parallel("how much CO2", "tens of percent", "hundreds of ppm, over a far longer path", False),
    Parallel("time", "minutes", "decades and more, because of the oceans", False),
    Parallel("cold above warm", "hardly any difference within 10 cm", "air cools with height, and the effect needs that", False),
)


def carries_over():
    """CarryOver: the table of what vessel and planet share and what they don't. Textbook physics; sizes from `kit.physics`."""
    return CarryOver(PARALLELS)
