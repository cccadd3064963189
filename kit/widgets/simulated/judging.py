"""The runs of a simulated bench weighed together, and its truth, which opens once the learner has said what made most."""

from functools import lru_cache

from kit.analysis.causes import BY_LETTER, RIVALS, weigh_causes
from kit.analysis.effect import paired_effect
from kit.bench import reveal
from kit.units import difference
from kit.widgets.cards import buttons, choices, text
from kit.widgets.causes import board_of, CausesCard, effect_row, moving_sentence, ranges_of
from kit.widgets.simulated.book import PAGE
from kit.widgets.simulated.marking import NO_RUN
from kit.widgets.simulated.setup import mouth_cm

NO_CO2 = "To weigh causes, this bench needs a run with CO2: all else as usual, read after 10 minutes."
PRESS = "Press it again when a run has come in, or when you have moved windows."
OPEN_FIRST = "First say it: what made most of the warming on bench {bench}?"
UNDECIDED = "cannot tell"
LEFT_OUT = "Not weighed: {}. The model predicts runs that differ from the usual CO2 run in one thing, or in film and foil together."
NEWEST = "Of two runs of one kind the newer counts."
SMALL_C = 0.02  # a cause that makes less is left out of the table
CAUSES_HEAD, RUNS_HEAD = ["cause", "alone", "taken out"], ["run", "your range", "in truth", "the truth is"]


class WeighingCard(CausesCard):
    """The bars of what each cause can still be on this bench, given the windows in its runs when the button was pressed last."""

    def __init__(self, book):
        self._book, self._found, self._made = book, None, ()
        super().__init__(f"{PAGE}.weigh", "Weigh your runs", self._drawn, weigh=self._weigh)

    def _drawn(self):
        asked = [text("press", PRESS, tone="quiet"), buttons("do", ("weigh", "Weigh my runs"))]
        if self._found is None:
            return asked
        before = max(1, len(self._found.history) - 1)
        told = {"title": f"Last weighed: {self._made[-1].words}", "moved": moving_sentence(self._found, before) if len(self._made) > 1 else ""}
        rows = [effect_row(each.kind, each.words, run.effect) for each, run in zip(self._made, self._found.runs)]
        return [*asked, board_of(self._found, before, last=told), ranges_of(rows), *self._others()]

    def _others(self):
        """What is said of this bench's runs that don't count."""
        runs = [each for each in self._book.runs if each.bench == self._made[0].bench]
        kindless = [each.words for each in runs if not each.kind]
        kinds = [each.kind for each in runs if each.kind]
        said = [LEFT_OUT.format("; ".join(kindless))] if kindless else []
        said += [NEWEST] if len(set(kinds)) < len(kinds) else []
        return [text("others", " ".join(said), tone="quiet")] if said else []

    def _weigh(self, _values):
        newest = {each.kind: each for each in self._book.runs if each.kind}
        if "gas" not in newest:
            return NO_CO2
        self._made = tuple(sorted(newest.values(), key=lambda each: (each.kind != "gas", each.number)))
        self._found = _weighed(self._made, tuple(each.windows for each in self._made))
        return ""


@lru_cache(maxsize=8)
def _weighed(made, windows):
    effects = {each.kind: paired_effect(each.run, marked) for each, marked in zip(made, windows)}
    return weigh_causes(effects, {"mouth_cm": mouth_cm(made[0].bench)})


def truth_card(book):
    """A question, and behind it the truth of the bench that was used last."""

    def draw():
        if not book.runs:
            return [text("none", NO_RUN)]
        options = [*((each.letter, each.name) for each in RIVALS), (UNDECIDED, UNDECIDED)]
        asked = choices(f"said {book.bench}", OPEN_FIRST.format(bench=book.bench), options, book.said)
        return [asked, buttons("do", ("open", "Keep this, and open the truth")), *(_truth(book) if book.said else [])]

    def open_(values):
        if not values.get(f"said {book.bench}"):
            return "Say first what made most. To say that you cannot tell is fine."
        book.say(values[f"said {book.bench}"])
        return ""

    card = CausesCard(f"{PAGE}.truth", "The truth of this bench", draw, open=open_)
    book.follow(card.redraw)
    return card


def _truth(book):
    """What was said beside the causes' true sizes in the plain CO2 run (else the first), and each run's range beside the truth."""
    shown = next((each for each in book.runs if each.kind == "gas"), book.runs[0])
    truth = reveal(shown.run)
    large = [each for each in truth.causes if max(abs(each.alone_c), abs(each.taken_out_c)) >= SMALL_C]
    causes = [[f"{each.name} ({each.letter})", *(difference(size, 2) for size in (each.alone_c, each.taken_out_c))] for each in large]
    said = UNDECIDED if book.said == UNDECIDED else str(BY_LETTER[book.said])
    return [
        text("truth", f"You said: {said}. {truth}", tone="kept", title=f"Bench {book.bench}, {shown.words}"),
        _table("causes", "What each cause makes there by itself, and what is missing without it", CAUSES_HEAD, causes),
        _table("ranges", "Your ranges and the truth, in the windows that you marked", RUNS_HEAD, list(map(_beside_truth, book.runs))),
    ]


def _beside_truth(made):
    windows, true_c = made.windows, reveal(made.run).effect_c(made.windows)
    warming = paired_effect(made.run, windows).warming
    return [made.words, warming.range, difference(true_c, 2), "inside" if warming.holds(true_c) else "outside"]


def _table(key, caption, head, rows):
    return {"is": "rows", "key": key, "caption": caption, "head": head, "rows": rows}
