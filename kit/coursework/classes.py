"""What a learner decided about a class on the board of lesson 09: who was left out, why, and in which runs the vessels had changed places."""

from dataclasses import dataclass

CLASS_CARD, CLASS_KIND = "09.board", "class"


@dataclass(frozen=True)
class ClassChoices:
    """The choices for the class called `name`: `left_out` as ((group, reason), …), a reason that was never given being empty, and the runs
    `turned`, which were made with the places of the vessels changed."""

    name: str
    left_out: tuple = ()
    turned: tuple = ()


def class_choices(kept, name=None):
    """The `ClassChoices` in the answers to lesson 09, the newest for each class, in the order in which the classes were first opened; those of
    the class `name` alone, if one is named."""
    told = {}
    for answer in kept.of(CLASS_CARD, CLASS_KIND):
        content = answer.content
        told[content["name"]] = ClassChoices(content["name"], tuple(content["left_out"].items()), tuple(content["turned"]))
    return tuple(each for each in told.values() if name in (None, each.name))
