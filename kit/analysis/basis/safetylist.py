"""The usual cautions, each one sentence or two. They never decide: local rules come first, and a qualified adult."""

from kit.faults import Caution
from kit.units import temperature

PET_SOFT_C = 70
WORDS = {
    "ventilate": "CO2 pushes the air away. Air the room, and keep faces away from the mouth of a vessel that holds it.",
    "way out": "Never close a vessel or bottle in which gas is made. The gas always needs a free way out.",
    "eyes": "Wear eye protection with acid. Rinse spills with plenty of water.",
    "tablets": "Tablets are medicine. Eat and drink nothing in the lab.",
    "lamp": "Lamp and cage burn skin and scorch paper and plastic. Fix the stand, keep 30 cm free, and let it cool before you touch it.",
    "alone": "Never leave a hot lamp alone, and keep water away from parts on mains power.",
    "glass": "Glass may crack when heated on one side or splashed. PET goes soft near {soft}.",
    "cylinder": "Gas cylinders, fans near a lamp and dry ice are for trained adults. Without one, use the recorded runs.",
    "boiling": "Boiling water is for adults, away from the edge of the table.",
    "rules": "Your local rules come first. A qualified adult decides.",
}


def safety(*codes):
    """The cautions with these codes, as a tuple; the last one always says that local rules and a qualified adult decide.

    Common practice, no source, but for the softening of PET (textbook, from memory).
    """
    return tuple(Caution(code, WORDS[code].format(soft=temperature(PET_SOFT_C, 0))) for code in (*codes, "rules"))
