"""The one number of a result that can be laid beside another's, or pooled with it."""

from kit.estimate import Estimate
from kit.faults import Fault


def number_of(thing):
    """The `Estimate` that a result answers with: an effect's warming, a curve's rise, a class's mean; an Estimate is one. A Fault for others."""
    if isinstance(thing, Estimate):
        return thing
    if isinstance(found := getattr(thing, "comparable", None), Estimate):
        return found
    raise Fault(f"{type(thing).__name__} holds no warming with a range. Give effects, warming curves, a class effect or Estimates.")
