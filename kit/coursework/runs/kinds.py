"""What kind of run one of a learner's own is (CO2, air, argon, covered and so on): said once, needed to weigh causes."""

KIND_CARD, KIND_SAID = "kind", "kept"


def run_kind(kept):
    """The kind of run that was said last, by the words of `kit.analysis.causes.RUNS`; '' where nobody said."""
    told = kept.latest(KIND_CARD, KIND_SAID)
    return str(told.content.get("done", "")) if told else ""
