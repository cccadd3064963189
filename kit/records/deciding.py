"""What a learner decides about odd places: kept, kept with a flag, or left out with a reason. The file stays as it is."""

from dataclasses import dataclass, replace

from kit.faults import Fault
from kit.records.oddities import OddPlace, odd_places, taken_out
from kit.words import listed

KEEP, FLAG, LEAVE_OUT = "keep", "flag", "leave out"
SAID = {KEEP: "Kept", FLAG: "Kept with a flag", LEAVE_OUT: "Left out"}


@dataclass(frozen=True)
class Decision:
    """One odd place, what was decided about it ('keep', 'flag' or 'leave out'), and the reason in the learner's words, '' if none was given."""

    place: OddPlace
    choice: str
    reason: str

    def __str__(self):
        reason = self.reason.strip().rstrip(".")
        return f"{SAID[self.choice]}: {str(self.place).rstrip('.')}.{f' Reason: {reason}.' if reason else ''}"


def decided(run, decisions):
    """`run` with {number of the place from 1, or the place itself: (choice, reason)} carried out, and a remark for each."""
    readings, found = run.readings, odd_places(run.readings)
    made = [decision_of(key, *answer, found) for key, answer in decisions.items()]
    for decision in made:
        if decision.choice == LEAVE_OUT:
            readings = taken_out(readings, decision.place)
    return replace(run, readings=readings, remarks=(*run.remarks, *map(str, made)), decisions=(*run.decisions, *made))


def decision_of(key, choice, reason, found):
    if choice not in SAID:
        raise Fault(f"An odd place can't be decided by {str(choice)[:20]!r}. Say {listed(map(repr, SAID), 'or')}.")
    if not isinstance(reason, str) or choice == LEAVE_OUT and not reason.strip():
        example = "run.decide({1: ('leave out', 'lamp touched')})"
        raise Fault(f"Leaving readings out needs a reason: what do you think happened there? For example: {example}.")
    if isinstance(key, OddPlace):
        return Decision(key, choice, reason)
    if not isinstance(key, int) or not 1 <= key <= len(found):
        many = f"1 to {len(found)}" if found else "none, for this run has none"
        raise Fault(f"There is no odd place number {key!r}. Their numbers are {many}, in the order of run.odd_places().")
    return Decision(found[key - 1], choice, reason)
