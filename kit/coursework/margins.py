"""The margin that a learner chose in lesson 08, before the comparison opened."""

import re

CARD = "08.margin"


def margin_c(kept):
    """The margin (°C) in the answers to lesson 08, from the words of the choice that was kept; None while there is none."""
    told = kept.latest(CARD, "prediction")
    number = told and re.match(r"\d+(?:\.\d+)?", told.content.get("words", ""))
    return float(number[0]) if number else None
