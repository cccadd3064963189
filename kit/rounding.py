"""How numbers are rounded for people, in one place."""

from math import floor, isfinite, log10

MINUS = "\N{MINUS SIGN}"


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
