"""The margin that a learner chose in lesson 08, before the comparison opened."""

import re

from kit.units import PER_C

CARD = "08.margin"


def margin_c(kept):
    """The margin (°C) in the answers to lesson 08, from the words of the choice that was kept, '0.3 °C' or '0.54 °F'; None while there is none."""
    told = kept.latest(CARD, "prediction")
    found = told and re.match(r"(\d+(?:\.\d+)?) *(°F)?", told.content.get("words", ""))
    return round(float(found[1]) / (PER_C["°F"] if found[2] else 1), 6) if found else None
