"""The one place where a value that can't be is refused, by name and number."""

import numpy as np

from kit.faults import Fault


def bounded(value, what, low, high, unit="", do=""):
    """`value` as floats if all of it lies from `low` to `high` (both included); else a Fault that names the first that doesn't.

    Numbers or arrays. NaN lies nowhere and is refused. `what` is the quantity in words, `do` one sentence of advice.
    """
    numbers = as_floats(value, what)
    inside = (numbers >= low) & (numbers <= high)
    if not inside.all():
        refused = f"{float(numbers[~inside].flat[0]):,.10g} {unit}".strip()
        raise Fault(f"{what} can't be {refused} here. {limits(low, high, unit)}{do and ' '}{do}")
    return numbers


def as_floats(value, what):
    """`value` as a float array of any shape; a Fault where it holds something other than numbers."""
    try:
        return np.asarray(value, dtype=float)
    except (TypeError, ValueError):
        raise Fault(f"{what} must be a number. This was given: {value!r}.") from None


def limits(low, high, unit):
    """'Give 0 to 1.' or 'Give 0 g or more.'"""
    if np.isinf(high):
        return f"Give {low:,.10g} {unit}".strip() + " or more."
    return f"Give {low:,.10g} to {high:,.10g} {unit}".strip() + "."


def one_of(value, what, known):
    """`value` if it is among the `known` names; else a Fault that lists them."""
    if value not in list(known):
        raise Fault(f"{what} {value!r} is not known. Known: {', '.join(known)}.")
    return value
