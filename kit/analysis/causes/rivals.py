"""The rival causes in words, and the kinds of run that could tell them apart. What each predicts is computed: `predictions`."""

from dataclasses import dataclass

from kit.analysis.causes.bounds import LETTERS
from kit.faults import Fault
from kit.words import listed


@dataclass(frozen=True)
class Rival:
    """A possible cause: its letter, a short name, and what would be going on."""

    letter: str
    name: str
    story: str

    def __str__(self):
        return f"{self.name} ({self.letter})"


RIVALS = (
    Rival("m", "less exchange through the mouth", "Heavy gas lies still where warm air would change places with the room's."),
    Rival("d", "thermometer in the beam", "The lamp warms the thermometer itself, and the gas cools it less than air."),
    Rival("c", "heat carried to the wall", "Where the gas moves about, it carries a little less heat to the wall than air."),
    Rival("a", "lamp light taken up", "CO2 takes up some of the lamp's light near 2.7 and 4.3 µm."),
    Rival("b", "infrared of the walls", "CO2 and the walls swap thermal infrared. It pulls the gas to its walls."),
    Rival("e", "cold or wet gas", "The gas comes in colder than the control's air."),
    Rival("f", "disturbance or side", "The handling, or a lamp that leans to one side, and not the gas."),
)
BY_LETTER = {each.letter: each for each in RIVALS}
# Kind of run -> what it is, in words.
RUNS = {
    "gas": "CO2 into one of two open vessels",
    "air": "plain air through the same tube and water",
    "argon": "argon in place of CO2",
    "stirred": "a fan in both vessels",
    "shaded": "foil between lamp and both thermometers",
    "covered": "film over both mouths once the gas is in",
    "covered_shaded": "film over both mouths with foil over both thermometers",
    "filtered": "a tank of water before the lamp",
    "swapped": "the vessels' places changed",
    "waited": "read again 45 min after the gas",
    "dark": "no lamp, both vessels in warm water",
}


def known_letters(letters):
    """The letters in the kit's order; a Fault names one that no cause has."""
    for letter in letters:
        if letter not in BY_LETTER:
            raise Fault(f"No cause has the letter {letter!r}. Causes: {listed(RIVALS)}.")
    return [letter for letter in LETTERS if letter in letters]


def known_kind(kind):
    """`kind` if there is such a kind of run; a Fault lists all of them."""
    if kind not in RUNS:
        raise Fault(f"There is no kind of run {kind!r}. Kinds: {', '.join(RUNS)}.")
    return kind
