"""A claim on one run: how wide its range is, what it is compared with, its limit and its cause, and what readers then ask."""

from functools import cache

from kit.analysis.effect import paired_effect, suggest_windows
from kit.estimate import rounded
from kit.examples import example_run
from kit.units import difference, difference_in
from kit.widgets.cards import Numbers
from kit.widgets.shared import Grip, LOOK, Pick, rows, script, sheet, View
from kit.words import counted

NARROW, WIDE = 0.8, 2.0  # times what the record gives: narrower claims too much, wider tells too little
READERS = {"range": "a classmate", "beside": "somebody at home", "limit": "an engineer", "cause": "a teacher"}
BESIDE = {"control": "than the control", "alone": "struck out"}
LIMIT = {"stated": "stated", "out": "struck out"}
CAUSE = {"none": "none named", "borrowed": "from a book"}
GRIPS = [
    Grip("reach_c", "the range, to each side", 0, 1, 0, step=0.01, unit="°C"),
    Pick("beside", "Warmer", BESIDE, "alone"),
    Pick("limit", "Its limit is", LIMIT, "out"),
    Pick("cause", "Its cause is", CAUSE, "borrowed"),
]
NOTHING = "Nobody has to ask: range, control and limit are there, and no borrowed cause."
HELP = "Pull the range, and choose what the claim says. Below it stands what readers would ask."


class ClaimView(View):
    """A claim under the hand. Made by `claim_view`."""

    _esm, _css = script("writeup/claim"), sheet(*LOOK, "writeup/claim")

    def numbers(self):
        """What the cards of lesson 12 name: questions to the barest and the fullest claim, and the one that a missing limit calls up."""
        reach, full = _effect().warming.half_width, {"beside": "control", "limit": "stated", "cause": "none"}
        bare, best = (len(asked(*each)) for each in ((0, "alone", "out", "borrowed"), (reach, *full.values())))
        without = asked(reach, "control", "out", "none")[0][1]
        texts = {"bare": counted(bare, "question"), "best": counted(best, "question") if best else "none", "limit": without}
        return Numbers({"bare": bare, "best": best}, texts)


def claim_view():
    """The claim on the bundled run basalt, to be made stronger or weaker."""
    return ClaimView("What would a reader ask?", GRIPS, answer, help=HELP)


def answer(reach_c, beside, limit, cause):
    """The claim as it stands, and what readers ask of it."""
    found, said = asked(reach_c, beside, limit, cause), claim(reach_c, beside, limit, cause)
    asks = [f"{reader}: {words}" for reader, words in found]
    sentence = f"Readers would ask {counted(len(found), 'question')}." if found else NOTHING
    table = rows("What readers ask", ["who", "asks"], found)
    return {"claim": said, "asks": asks, "sentence": sentence, "picture": f"The claim: {said} {sentence}", "table": table}


def claim(reach_c, beside, limit, cause):
    """The claim in words."""
    value = _effect().warming.value
    ends = f", between {rounded(difference_in(value - reach_c), 2)} and {difference(value + reach_c, 2)}" if reach_c else ""
    than = " more than the control" if beside == "control" else ""
    because = ", because CO2 takes up infrared" if cause == "borrowed" else ""
    bounds = " This holds for our canisters and lamp; it does not say why." if limit == "stated" else ""
    return f"The treated vessel warmed by {difference(value, 2)}{than}{ends}{because}.{bounds}"


def asked(reach_c, beside, limit, cause):
    """(reader, question) of everything that a reader of this claim would ask."""
    record = _effect().warming.half_width
    questions = {
        "range": _about_range(reach_c, record),
        "beside": "Warmer than what? The lamp warms every vessel." if beside == "alone" else "",
        "limit": "What does this run not show?" if limit == "out" else "",
        "cause": "Which of your runs shows that cause, and no other?" if cause == "borrowed" else "",
    }
    return [(READERS[about], words) for about, words in questions.items() if words]


def _about_range(reach_c, record):
    if not reach_c:
        return "How sure are you of this number?"
    if reach_c < NARROW * record:
        return "Your record gives a wider range. Why is yours so narrow?"
    return "Your record gives a narrower range. What do you add?" if reach_c > WIDE * record else ""


@cache
def _effect():
    run = example_run("basalt")
    return paired_effect(run, suggest_windows(run))
