"""The rubric of a write-up: four parts, each from level 0 to 3, and who ticked what last."""

RUBRIC_CARD, TICKED = "12.rubric", "rubric"
RUBRIC = {
    "claim": (
        "There is none, or it is not about the run.",
        "A direction: it got warmer.",
        "A value with its unit, compared with the control.",
        "A value with its range, compared with what, and for which set-up.",
    ),
    "evidence": (
        "There is none, or only: the data show it.",
        "A number or a chart, not where it is from.",
        "Windows, both changes and the effect, from a named run.",
        "Also what speaks against it, and what was changed in the data.",
    ),
    "reasoning": (
        "There is none.",
        "It says the numbers again.",
        "It says why control and baseline make it fair.",
        "Also which causes the runs tell apart, and which they don't.",
    ),
    "limits": (
        "There are none.",
        "It says that there may be mistakes.",
        "It names one real limit.",
        "It names the largest with its size, and the run that would shrink it.",
    ),
}


def level_of(ticked, part):
    """The level (0 to 3) that a tick gives to a part; None where it gives none."""
    word = str(ticked.get(part, "")).removeprefix("level ")
    return int(word) if word in ("0", "1", "2", "3") else None


def ticks(kept):
    """{who: what was ticked last} of the answers to lesson 12: 'learner', 'reader'."""
    return {answer.content.get("who", "learner"): answer.content for answer in kept.of(RUBRIC_CARD, TICKED)}
