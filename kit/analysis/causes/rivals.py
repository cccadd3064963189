"""The rival causes, the runs that could tell them apart, and what each cause predicts for each run.

The predictions are reasoned from the physics in `kit.physics`, not measured: a real bench has to be asked. Codes: "gone" (or
nearly), "less", "same", "opposite" (changes sign), "unclear".
"""

from dataclasses import dataclass

from kit.faults import Fault
from kit.words import listed


@dataclass(frozen=True)
class Rival:
    """A possible cause: its letter, a short name, what would be going on, and what each run would show if it alone were at work."""

    letter: str
    name: str
    story: str
    predicts: dict


RUNS = {
    "air": "plain air through the same tube",
    "argon": "argon in place of CO2",
    "stirred": "both vessels stirred",
    "filtered": "water or glass before the lamp",
    "shaded": "foil between lamp and both thermometers",
    "swapped": "vessels change sides",
    "waited": "10 minutes more before reading",
    "covered": "both loosely covered, never sealed",
}


def _rival(letter, name, story, codes):
    return Rival(letter, name, story, dict(zip(RUNS, codes.split(), strict=True)))


RIVALS = (
    _rival(
        "a", "lamp light taken up", "CO2 takes up some of the lamp's light near 2.7 and 4.3 µm.",
        "gone gone same gone same same less same",
    ),
    _rival(
        "b", "infrared of the walls", "CO2 and the walls swap thermal infrared.",
        "gone gone less same same same less same",
    ),
    _rival(
        "c", "a dense layer lies still", "Dense gas stays at the bottom, so heat leaves by conduction alone.",
        "gone same gone less less same less same",
    ),
    _rival(
        "d", "thermometer in the beam", "The lamp warms the thermometer itself, and CO2 cools it less than air.",
        "gone same less less gone same same same",
    ),
    _rival(
        "e", "cold or wet gas", "The gas comes in colder than the vessel.",
        "less unclear same same same same gone same",
    ),
    _rival(
        "f", "disturbance or side", "The handling, a moved lamp or an open lid, and not the gas.",
        "same same same same same opposite unclear unclear",
    ),
    _rival(
        "g", "heat capacity of the gas", "CO2 takes more heat for each degree, so it changes more slowly.",
        "gone opposite same same same same gone same",
    ),
)  # fmt: skip
BY_LETTER = {each.letter: each for each in RIVALS}


def runs_that_separate(*letters):
    """Names of the runs for which these causes (letters) predict different results, the sharpest first. A Fault for unknown letters."""
    rivals = [_known(letter) for letter in letters]
    kinds = {run: len({rival.predicts[run] for rival in rivals} - {"unclear"}) for run in RUNS}
    return tuple(sorted((run for run in RUNS if kinds[run] > 1), key=lambda run: -_pairs_split(run, rivals)))


def _known(letter):
    if letter not in BY_LETTER:
        raise Fault(f"No cause has the letter {letter!r}. Causes: {listed(f'{each.letter} {each.name}' for each in RIVALS)}.")
    return BY_LETTER[letter]


def _pairs_split(run, rivals):
    """How many pairs of the causes this run tells apart."""
    codes = [rival.predicts[run] for rival in rivals]
    return sum(one != other and "unclear" not in (one, other) for at, one in enumerate(codes) for other in codes[:at])
