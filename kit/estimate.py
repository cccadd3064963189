"""A number with its uncertainty. It is kept in its own unit and told in the class's: °C or °F."""

from dataclasses import dataclass, replace
from math import inf, isfinite, nan

from kit.rounding import amount, MINUS, places_for, rounded
from kit.units import offset_of, shown_unit

__all__ = ["amount", "Estimate", "MINUS", "Parts", "places_for", "Range", "rounded"]


@dataclass(frozen=True)
class Parts:
    """What the range of a number is made of, in its unit: `error`, the standard uncertainty of chance alone, with `dof` degrees of freedom;
    `gain`, that of the thermometers' scales; and what drift may have added to the value, `drift_low` to `drift_high`, which no repeat
    averages out. `carried` ± `carried_error`: the drift as measured before the change, carried over to the response; infinite error
    where the record did not measure it, or where it was no straight line."""

    error: float
    dof: float = inf
    gain: float = 0.0
    drift_low: float = 0.0
    drift_high: float = 0.0
    carried: float = 0.0
    carried_error: float = inf

    @property
    def standard_error(self):
        """Chance and scales together, standard uncertainty."""
        return (self.error**2 + self.gain**2) ** 0.5

    @property
    def known(self):
        """Is there any uncertainty to work with?"""
        return 0 < self.standard_error < inf

    def scaled(self, factor):
        """The same parts in another unit; a negative factor turns the drift round."""
        drift = sorted((self.drift_low * factor, self.drift_high * factor))
        size = abs(factor)
        return Parts(self.error * size, self.dof, self.gain * size, *drift, self.carried * factor, self.carried_error * size)


@dataclass(frozen=True)
class Estimate:
    """A value, its standard uncertainty and an interval, all in one unit.

    `low` and `high` bound the interval that holds at `level` (0.95 is 95 %). It may be wider than the standard uncertainty alone would
    make it (it can hold an allowance for drift), lopsided about the value, and open at one end (plus or minus infinity). `parts`: what it is
    made of, where that is known. Prints value and interval where they hold a drift, else by GUM 7.2.6 (JCGM 100:2008): the uncertainty to
    two digits, the value to match.
    `on_scale`: a reading on the thermometer's scale (a boiling point), and not a difference; told in °F, its zero moves, too.
    """

    value: float
    standard_error: float
    low: float
    high: float
    level: float = 0.95
    unit: str = "°C"
    parts: Parts | None = None
    on_scale: bool = False

    @classmethod
    def from_error(cls, value, standard_error, factor, *, unit="°C", level=0.95):
        """The interval value ± factor · standard error; `factor` is a coverage factor for `level` (GUM 6.2 and annex G)."""
        reach = factor * standard_error
        return cls(value, standard_error, value - reach, value + reach, level, unit)

    @classmethod
    def undetermined(cls, unit="°C", level=0.95):
        """What to give when the record does not hold the number: everything is still possible."""
        return cls(nan, inf, -inf, inf, level, unit)

    @property
    def half_width(self):
        """Half the length of the interval, in the estimate's unit."""
        return (self.high - self.low) / 2

    def holds(self, value):
        """Is `value` inside the interval?"""
        return self.low <= value <= self.high

    def scaled(self, factor, unit):
        """The same estimate in another unit: every part times `factor` (a difference in °F is 1.8 times one in °C)."""
        low, high = sorted((self.low * factor, self.high * factor))
        parts = self.parts and self.parts.scaled(factor)
        return Estimate(self.value * factor, abs(factor) * self.standard_error, low, high, self.level, unit, parts, self.on_scale)

    @property
    def shown(self):
        """The same estimate in the unit that the class reads."""
        factor, unit = shown_unit(self.unit)
        return self if factor == 1 else self.scaled(factor, unit)._moved(offset_of(self, unit))

    def _moved(self, offset):
        return replace(self, value=self.value + offset, low=self.low + offset, high=self.high + offset) if offset else self

    def _repr_pretty_(self, printer, cycle):
        """What a notebook shows of it."""
        printer.text(str(self))

    def __str__(self):
        told = self.shown
        if not isfinite(told.value) or not 0 < told.standard_error < inf:
            return "not determined" if not isfinite(told.value) else f"{told._with_unit(f'{told.value:.3g}')}, uncertainty not determined"
        if told.parts and told.parts.drift_high > told.parts.drift_low:
            return self.text
        places = places_for(told.standard_error, digits=2)
        return told._with_unit(f"{rounded(told.value, places)} ± {rounded(told.standard_error, places)}")

    @property
    def range(self):
        """The interval in words: '1.46 to 1.60 °C', 'at least 1.2 °C', 'not determined'."""
        told = self.shown
        places = told._range_places()
        if isfinite(told.low) and isfinite(told.high):
            return told._with_unit(f"{rounded(told.low, places)} to {rounded(told.high, places)}")
        if isfinite(told.low):
            return f"at least {rounded(told.low, places)} {told.unit}"
        return f"at most {rounded(told.high, places)} {told.unit}" if isfinite(told.high) else "not determined"

    @property
    def value_text(self):
        """The value in words, with as many decimals as its interval has: '1.53 °C'; 'not determined'."""
        told = self.shown
        return told._with_unit(rounded(told.value, told._range_places())) if isfinite(told.value) else "not determined"

    @property
    def text(self):
        """Value and interval for a sentence: '1.53 °C (95 %: 1.46 to 1.60 °C)'."""
        if not isfinite(self.value):
            return self.range
        return f"{self.value_text} ({100 * self.level:g} %: {self.range})"

    def _with_unit(self, number):
        return f"{number} {self.unit}".rstrip()

    def _range_places(self):
        """Decimals for the interval: expanded uncertainties to two digits when they begin with 1 or 2, else to one."""
        width = self.half_width if isfinite(self.half_width) else self.standard_error
        if not 0 < width < inf:
            return 2
        leading = float(f"{width:.1e}".split("e")[0])
        return places_for(width, digits=2 if leading < 3 else 1)


@dataclass(frozen=True)
class Range:
    """From least to most, in one unit: what is plausible where nobody can name a best value. Prints its ends to two digits.
    `on_scale`: readings on the thermometer's scale, as in `Estimate`."""

    low: float
    high: float
    unit: str
    on_scale: bool = False

    def holds(self, value):
        """Is `value` inside?"""
        return self.low <= value <= self.high

    def meets(self, other):
        """Do the two have a value in common? `other` may be a Range or an Estimate."""
        return self.low <= other.high and other.low <= self.high

    def scaled(self, factor, unit):
        """The same range in another unit."""
        return Range(*sorted((self.low * factor, self.high * factor)), unit, self.on_scale)

    @property
    def shown(self):
        """The same range in the unit that the class reads."""
        factor, unit = shown_unit(self.unit)
        offset = offset_of(self, unit)
        return self if factor == 1 else Range(self.low * factor + offset, self.high * factor + offset, unit, self.on_scale)

    def _repr_pretty_(self, printer, cycle):
        """What a notebook shows of it."""
        printer.text(str(self))

    def __str__(self):
        told = self.shown
        low, high = told._end(told.low), told._end(told.high)
        return f"{low if low == high else f'{low} to {high}'} {told.unit}".strip()

    def _end(self, end):
        """An end to two digits, or as many more as tell it from the other end; 0 under a two-hundredth of the width."""
        width = self.high - self.low
        if self.on_scale and width:  # where a scale's zero lies says nothing of how well a reading on it is known
            return rounded(end, max(places_for(width, 1), 0))
        if end == 0 or abs(end) < width / 200:
            return "0"
        places = min(max(places_for(abs(end), 2), places_for(width, 1)), places_for(width, 3)) if width else places_for(abs(end), 2)
        return rounded(end, places)
