"""What a learner said of a class on the board of lesson 09: who was left out, why, in which runs vessels had changed places, how wide mouths are."""

from dataclasses import dataclass

CLASS_CARD, CLASS_KIND = "09.board", "class"


@dataclass(frozen=True)
class ClassChoices:
    """The choices for the class called `name`: `left_out` as ((group, reason), …), a reason that was never given being empty, and the runs
    `turned`, which were made with the places of the vessels changed; `mouths` as ((group, what was written of its mouth in cm), …)."""

    name: str
    left_out: tuple = ()
    turned: tuple = ()
    mouths: tuple = ()


def class_choices(kept, name=None):
    """The `ClassChoices` in the answers to lesson 09, the newest for each class, in the order in which the classes were first opened; those of
    the class `name` alone, if one is named."""
    told = {}
    for answer in kept.of(CLASS_CARD, CLASS_KIND):
        content = answer.content
        pairs = [tuple(content.get(each, {}).items()) for each in ("left_out", "mouths")]  # before there were mouths, none was kept
        told[content["name"]] = ClassChoices(content["name"], pairs[0], tuple(content["turned"]), pairs[1])
    return tuple(each for each in told.values() if name in (None, each.name))
