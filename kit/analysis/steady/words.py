"""A steadiness's own account: how the verdict was reached, with this run's numbers."""

from math import isfinite

from kit.estimate import amount
from kit.units import difference_in, stated
from kit.words import account


def steadiness_explained(steadiness):
    """The account of a `Steadiness`, one thought a line."""
    s = steadiness
    if not isfinite(s.slope.value):
        return account(f"There is no drift to judge: {s.reason}")
    lines = [
        f"A straight line through {s.stretch} of the {s.of} changes by {s.slope.text}.",
        f"Readings closer than about {amount(s.correlation_s)} s agree by chance. The range allows for that and for the display's step.",
        f"Steady means: surely less than {stated(s.tolerance_c_per_min)} a minute. Drifting means: surely more. "
        f"Here the drift is at most {amount(difference_in(s.at_most))}.",
    ]
    return account(*lines, *_waiting(s))


def _waiting(steadiness):
    if steadiness.verdict == "steady":
        return []
    if steadiness.wait_min is None:
        return ["How long to wait can't be said from this record. Look again in a few minutes: does the drift shrink?"]
    known = steadiness.settling_min
    because = f"the control settles with a time constant of {amount(known)} min" if known else "a longer look narrows the range"
    return [f"It may take {steadiness.wait_min} more, as {because}. Nine times in ten the longer of the two is enough, looked at as a whole."]
