"""A number with its uncertainty, and the one place where numbers are rounded for people."""

from dataclasses import dataclass
from math import floor, inf, isfinite, log10, nan

MINUS = "\N{MINUS SIGN}"


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
    """

    value: float
    standard_error: float
    low: float
    high: float
    level: float = 0.95
    unit: str = "°C"
    parts: Parts | None = None

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
        return Estimate(self.value * factor, abs(factor) * self.standard_error, low, high, self.level, unit, parts)

    def __str__(self):
        if not isfinite(self.value) or not 0 < self.standard_error < inf:
            return "not determined" if not isfinite(self.value) else f"{self.value:.3g} {self.unit}, uncertainty not determined"
        if self.parts and self.parts.drift_high > self.parts.drift_low:
            return self.text
        places = places_for(self.standard_error, digits=2)
        return f"{rounded(self.value, places)} ± {rounded(self.standard_error, places)} {self.unit}"

    @property
    def range(self):
        """The interval in words: '1.46 to 1.60 °C', 'at least 1.2 °C', 'not determined'."""
        places = self._range_places()
        if isfinite(self.low) and isfinite(self.high):
            return f"{rounded(self.low, places)} to {rounded(self.high, places)} {self.unit}"
        if isfinite(self.low):
            return f"at least {rounded(self.low, places)} {self.unit}"
        return f"at most {rounded(self.high, places)} {self.unit}" if isfinite(self.high) else "not determined"

    @property
    def value_text(self):
        """The value in words, with as many decimals as its interval has: '1.53 °C'; 'not determined'."""
        return f"{rounded(self.value, self._range_places())} {self.unit}" if isfinite(self.value) else "not determined"

    @property
    def text(self):
        """Value and interval for a sentence: '1.53 °C (95 %: 1.46 to 1.60 °C)'."""
        if not isfinite(self.value):
            return self.range
        return f"{self.value_text} ({100 * self.level:g} %: {self.range})"

    def _range_places(self):
        """Decimals for the interval: expanded uncertainties to two digits when they begin with 1 or 2, else to one."""
        width = self.half_width if isfinite(self.half_width) else self.standard_error
        if not 0 < width < inf:
            return 2
        leading = float(f"{width:.1e}".split("e")[0])
        return places_for(width, digits=2 if leading < 3 else 1)


def places_for(uncertainty, digits):
    """How many decimals show `uncertainty` with that many significant digits, after rounding: 0.0996 to two is 0.10."""
    return digits - 1 - floor(log10(float(f"{uncertainty:.{digits - 1}e}")))


def amount(size, digits=2):
    """A size in words, to that many significant digits and without an exponent: 0.0104 is '0.010', 134 is '130'."""
    if not isfinite(size):
        return "unknown"
    return rounded(size, places_for(abs(size), digits)) if size else "0"


def rounded(value, places):
    """`value` as text with that many decimals (negative: to tens, hundreds), a true minus sign, and no minus before a zero."""
    text = f"{round(value, places):.{max(places, 0)}f}"
    if float(text) == 0:
        return text.lstrip("-")
    return text.replace("-", MINUS)


@dataclass(frozen=True)
class Range:
    """From least to most, in one unit: what is plausible where nobody can name a best value. Prints its ends to two digits."""

    low: float
    high: float
    unit: str

    def holds(self, value):
        """Is `value` inside?"""
        return self.low <= value <= self.high

    def meets(self, other):
        """Do the two have a value in common? `other` may be a Range or an Estimate."""
        return self.low <= other.high and other.low <= self.high

    def scaled(self, factor, unit):
        """The same range in another unit."""
        return Range(*sorted((self.low * factor, self.high * factor)), unit)

    def __str__(self):
        low, high = self._shown(self.low), self._shown(self.high)
        return f"{low if low == high else f'{low} to {high}'} {self.unit}".strip()

    def _shown(self, end):
        """An end to two digits, or as many more as tell it from the other end; 0 under a two-hundredth of the width."""
        width = self.high - self.low
        if end == 0 or abs(end) < width / 200:
            return "0"
        places = min(max(places_for(abs(end), 2), places_for(width, 1)), places_for(width, 3)) if width else places_for(abs(end), 2)
        return rounded(end, places)
