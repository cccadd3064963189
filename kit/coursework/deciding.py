"""What was decided about the odd places of a run, and the run as it is with that."""

from functools import lru_cache

CARD, KIND = "odd", "decided"
KEEP, FLAG, OUT = "keep", "flag", "out"


def decide_places(keeping, places, choice, reason):
    """Note in `keeping` what was decided about these places, the keys of `OddPlace`s; an empty choice opens them again."""
    for place in places:
        keeping.add(CARD, KIND, place=place, choice=choice, reason=reason)


def decisions_of(kept):
    """((place, (choice, reason)), …) of the answers kept for a run. The newest word on a place counts; an empty choice opens it again."""
    told = {each.content["place"]: (each.content["choice"], each.content["reason"]) for each in kept.of(CARD, KIND)}
    return tuple((place, said) for place, said in told.items() if said[0])


@lru_cache(maxsize=4)
def places_of(run):
    """The odd places of `run`, looked for once."""
    return run.odd_places()


@lru_cache(maxsize=4)
def decided_run(run, decisions):
    """`run` with its odd places as decided: left out, or flagged in a remark. The same object for the same decisions."""
    for place in places_of(run):
        choice, reason = dict(decisions).get(place.key, (KEEP, ""))
        if choice == OUT:
            run = run.without(place).with_remark(f"Left out because: {reason}")
        elif choice == FLAG or reason:
            run = run.with_remark(f"{'Kept with a flag' if choice == FLAG else 'Kept'}: {place} {reason}".strip())
    return run


def left_out_in_code(run, kept, name="run"):
    """The lines of code that leave out of the run called `name` what was left out; none if nothing was."""
    told = dict(decisions_of(kept))
    out = [n for n, place in enumerate(places_of(run)) if told.get(place.key, (KEEP,))[0] == OUT]
    chosen = ", ".join(f"places[{n}]" for n in out)
    return [f"places = {name}.odd_places()", f"{name} = {name}.without({chosen})"] if out else []
