"""What was decided about the odd places of a run, and the run as it is with that."""

from functools import lru_cache

CARD, KIND = "odd", "decided"
KEEP, FLAG, OUT = "keep", "flag", "out"
IN_CODE = {KEEP: "keep", FLAG: "flag", OUT: "leave out"}  # as `Run.decide` calls them


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
    """`run` with its odd places as decided. The same object for the same decisions."""
    told = dict(decisions)
    made = {place: (IN_CODE[told[place.key][0]], told[place.key][1]) for place in places_of(run) if place.key in told}
    return run.decide(made) if made else run


def decided_in_code(run, decisions, name="run"):
    """The line of code that decides the odd places of the run called `name` in the same way, in a list; an empty one if nothing was decided."""
    told = dict(decisions)
    made = {number: (IN_CODE[told[place.key][0]], told[place.key][1]) for number, place in enumerate(places_of(run), 1) if place.key in told}
    return [f"{name} = {name}.decide({made!r})"] if made else []
