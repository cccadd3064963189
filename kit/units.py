"""Temperatures as the class reads them. The kit computes and keeps °C; only what is said or drawn is in °C or °F, and only here is that decided.

Differences are scaled (1 °C is 1.8 °F), readings on a thermometer's scale move their zero, too (0 °C is 32 °F): NIST SP 811, B.8.
"""

import re

from kit.rounding import amount, MINUS, rounded
from kit.settings import class_settings

PER_C, ZERO_C = {"°C": 1.0, "°F": 1.8}, {"°C": 0.0, "°F": 32.0}
WRITTEN = re.compile(rf"(?:(?P<first>[-{MINUS}]?\d+(?:\.\d+)?) to )?(?P<last>[-{MINUS}]?\d+(?:\.\d+)?) (?P<unit>°[CF])")
MARK = re.compile(r"\{(?P<kind>c|at_c|near_c)(?::(?P<first>-?[\d.]+)(?: to (?P<last>-?[\d.]+))?)?\}")


def unit():
    """"°C" or "°F", as the class's settings say."""
    return class_settings()["temperature"]


def difference_in(c):
    """A difference of temperatures, or a rate (°C or °C a minute; number or array), as a number in the class's unit."""
    return c if unit() == "°C" else c * PER_C[unit()]


def temperature_in(c):
    """A reading on the scale (°C; number or array), as a number in the class's unit."""
    return c if unit() == "°C" else c * PER_C[unit()] + ZERO_C[unit()]


def difference(c, places):
    """A difference in words, with so many decimals: '1.53 °C', '2.75 °F'."""
    return f"{rounded(difference_in(c), places)} {unit()}"


def span(low_c, high_c, places):
    """From one difference to another in words: '1.46 to 1.60 °C'."""
    return f"{rounded(difference_in(low_c), places)} to {difference(high_c, places)}"


def about(c, digits=2):
    """A difference in words, with so many digits: '0.010 °C'."""
    return f"{amount(difference_in(c), digits)} {unit()}"


def stated(c):
    """A difference that somebody chose, as exactly as it was chosen: '0.3 °C', '0.54 °F'."""
    return f"{difference_in(c):g} {unit()}".replace("-", MINUS)


def temperature(c, places):
    """A reading on the scale in words: '21.4 °C', '70.5 °F'."""
    return f"{rounded(temperature_in(c), places)} {unit()}"


def reading(c):
    """A reading as exactly as it was taken, or a temperature that somebody chose: '21.4 °C', '70.52 °F'."""
    return f"{temperature_in(c):g} {unit()}".replace("-", MINUS)


def marked(text):
    """`text` with its marked temperatures as the class reads them.

    {c:0.3} is a difference of 0.3 °C that somebody chose, {near_c:6.2} one that was measured and keeps its decimals, {at_c:100} a reading;
    each may go from one to another: {c:1 to 3}. {c} is the unit alone.
    """
    return MARK.sub(_told, text)


def _told(found):
    if not found["first"]:
        return unit()
    ends = [end for end in (found["first"], found["last"]) if end]
    numbers = [_number(found["kind"], end) for end in ends]
    return f"{' to '.join(numbers)} {unit()}"


def _number(kind, written):
    if kind == "near_c":
        return rounded(difference_in(float(written)), len(written.partition(".")[2]))
    return f"{(difference_in if kind == 'c' else temperature_in)(float(written)):g}".replace("-", MINUS)


def same_but_for_unit(one, other):
    """Do two texts say the same, their temperatures (differences or readings) in °C in one and in °F in the other?"""
    (words, numbers, units), (words2, numbers2, units2) = map(_parted, (one, other))
    if words != words2 or len(numbers) != len(numbers2) or (units, units2) not in (({"°C"}, {"°F"}), ({"°F"}, {"°C"})):
        return False
    c, f = (numbers, numbers2) if units == {"°C"} else (numbers2, numbers)
    near = lambda zero: all(abs(PER_C["°F"] * x + zero - y) <= 0.01 * max(1, abs(y)) for x, y in zip(c, f))
    return near(0) or near(ZERO_C["°F"])


def _parted(text):
    """(the words around its temperatures, the numbers in those, the units)."""
    found = [each.groupdict() for each in WRITTEN.finditer(text)]
    ends = [end for each in found for end in (each["first"], each["last"]) if end]
    return WRITTEN.sub("…", text), [float(end.replace(MINUS, "-")) for end in ends], {each["unit"] for each in found}


def shown_unit(own):
    """(factor, unit) that turn a difference in the unit `own` into what the class reads: 1 and `own` for all that is no °C."""
    if unit() == "°C" or not own.startswith("°C"):
        return 1.0, own
    return PER_C[unit()], own.replace("°C", unit(), 1)


def offset_of(thing, shown):
    """What to add to an Estimate or a Range once it is scaled to the unit `shown`: where it stands on the scale, the scale's zero."""
    return ZERO_C[shown] if thing.on_scale and shown in ZERO_C else 0.0
