"""How each kind of number in a report was made: two sentences each."""

METHODS = {
    "effect": (
        "How much warmer",
        "In each window both vessels' readings are averaged; the effect is the treated vessel's change from baseline to response, less the control's. "
        "Its range holds what noise, display, scales and drift could have done, where readings that follow each other closely count as fewer.",
    ),
    "curve": (
        "How fast",
        "The difference is followed from the baseline's level until 63 % of its way to the response's level is reached. "
        "No formula for the curve is in that time or its range; the drawn rise is a picture to look at.",
    ),
    "comparison": (
        "Against the reference run",
        "One effect is taken from the other, and their ranges are combined as those of two independent runs. "
        "They are called the same only if the whole range of the difference lies within a margin that was chosen beforehand.",
    ),
    "class": (
        "The class",
        "Each group counts by how sure its own effect is and by how much groups differ; where nobody marked a run, the kit suggests its windows. "
        "The range for one more group also holds how much groups differ.",
    ),
    "weighed": (
        "What could have warmed it",
        "A model of the vessel computes, over many plausible benches, how large each cause's effect would be in each kind of run. "
        "Then the least and the most of every cause is sought with which all runs can be right at once.",
    ),
    "sizes": (
        "What could have warmed it",
        "A model of the vessel computes how much each cause can add at all, over many plausible benches. "
        "Sizes alone never settle which cause it was: that takes several kinds of run.",
    ),
}
