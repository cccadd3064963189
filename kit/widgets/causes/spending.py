"""Four runs to spend of nine: predicted for the learner's three causes first, then seen, and the bars of all causes move or don't."""

from kit.analysis.causes import BY_LETTER, LETTERS, RUNS, prediction
from kit.units import difference
from kit.widgets.cards import buttons, choices, keeping_of, Numbers, step_link, text
from kit.widgets.causes.board import board_of, effect_row, moving_sentence, ranges_of
from kit.widgets.causes.chips import CausesCard, laid
from kit.widgets.causes.runs import FOR_SALE, GIVEN, beside_gas, best_first, effect_of, fits_alone, name_of, told, weighed

TO_SPEND = 4
WORDS = ("more", "same", "less", "gone", "can't say")
TURNED = "changes sign"  # only a lamp that leans, or the handling, can do that
LEGEND = "If only {letter} were at work ({name}), the effect would be:"
FIRST = "First lay your three chips, in Step {step}. Then this opens."
LEFT = "{left} of {all} runs left. Say first what each of your causes predicts."
SPENT = "Your four runs are spent. Look at the bars before you open the other five."
OPEN = "All nine runs are in. Which of them should you have bought?"
SKIP = "Skip, open all nine"
SAME_WORD = "Your three predict the same here, so no result of this run could have told them apart."
BY_SIZE = "Each run alone, beside CO2 and air"
BY_SIZE_HEAD = ["run", "shortens your bars by", "not the only cause"]
NONE_SHORTENS = "You said {run}. Alone no run shortens the bars of your causes. {best} rules out the most as the only cause: {out}."
BEST = "You said {run}: alone it shortens the bars of your causes by {by}. No other run does more."
YOURS = "You said {run}: alone it shortens the bars of your causes by {by}. {best} does most: {most}."


def spend_runs(lesson, chips_step):
    """Nine runs of which a learner may spend four, beside the bars of what each cause can still be; kept with the answers to `lesson`.

    `chips_step` is the step in which the three chips are laid. `card.numbers()` gives what the lesson's other cards name.
    """
    return SpendingCard(lesson, chips_step)


class SpendingCard(CausesCard):
    """What was spent, the board with the bars, and the next run to choose. Made by `spend_runs`."""

    def __init__(self, lesson, chips_step):
        self._lesson, self._step, self._keeping = lesson, chips_step, keeping_of(lesson)
        super().__init__(f"{lesson}.runs", "Four runs to spend", self._drawn, buy=self._buy, open=self._open, should=self._should)
        self._keeping.observe(self.redraw, "kept")

    def numbers(self):
        """What the lesson's cards ask. A problem until the argon run is in, so that no card tells it early."""
        effects = {kind: effect_of(kind).warming for kind in (*GIVEN, "argon", "covered")}
        texts = {kind: each.value_text for kind, each in effects.items()} | {f"{kind}_range": each.range for kind, each in effects.items()}
        seen = self.all_open or "argon" in self._bought
        problem = "" if seen else "You have not seen the argon run yet. Spend your four runs, then all nine open."
        return Numbers({"argon": effects["argon"].value / effects["gas"].value}, texts, problem)

    @property
    def all_open(self):
        """Are all nine runs in? After four were spent, or for those who would rather look first."""
        return self._keeping.kept.latest(self.name, "opened") is not None

    @property
    def _runs(self):
        return [each.content for each in self._keeping.kept.of(self.name, "run")][:TO_SPEND]

    @property
    def _bought(self):
        return [each["run"] for each in self._runs]

    @property
    def _chips(self):
        return laid(self._keeping, self._lesson)

    def _drawn(self):
        if not self._chips and not self.all_open:
            return [text("first", FIRST.format(step=self._step)), step_link("go", self._step), buttons("do", ("open", SKIP))]
        return [*(self._opened() if self.all_open else self._form()), self._board(), self._shown()]

    def _form(self):
        left = TO_SPEND - len(self._runs)
        if not left:
            return [text("spent", SPENT), buttons("do", ("open", "Open the other five"))]
        runs = [(kind, f"{name_of(kind)}: {RUNS[kind]}") for kind in FOR_SALE if kind not in self._bought]
        run, *said = self._fields()
        asked = [choices(field, _legend(each), _options(each), across=True) for each, field in zip(self._chips, said)]
        told_left = text("left", LEFT.format(left=left, all=TO_SPEND))
        return [told_left, choices(run, "Which run next?", runs), *asked, buttons("do", ("buy", "Spend a run"), ("open", SKIP))]

    def _fields(self):
        """Names of the form's fields: new ones for each run, so that nothing stays chosen from the run before."""
        return [f"run {len(self._runs) + 1}", *(f"run {len(self._runs) + 1} {each}" for each in self._chips)]

    def _opened(self):
        kept = self._keeping.kept.latest(self.name, "should")
        chosen = kept.content["run"] if kept else ""
        asked = choices("should", OPEN, [(kind, name_of(kind)) for kind in FOR_SALE], chosen, across=True)
        return [asked, buttons("do", ("should", "Keep this")), *(_judged(chosen, best_first(self._chips or LETTERS)) if kept else [])]

    @property
    def _in(self):
        """Kinds of the runs that are in, besides gas and air: first those bought."""
        return (*self._bought, *(kind for kind in FOR_SALE if self.all_open and kind not in self._bought))

    def _shown(self):
        return ranges_of([effect_row(kind, name_of(kind), effect_of(kind).warming) for kind in (*GIVEN, *self._in)])

    def _board(self):
        found = weighed(self._in)
        before = len(GIVEN) + len(self._bought) - (not self.all_open and len(self._bought) > 0)
        return board_of(found, before, self._chips, self._last(found, before))

    def _last(self, found, before):
        """The run bought last: what it showed, what was said, what the model says, which bars moved; once all are in, only that."""
        if self.all_open or not self._runs:
            return {"title": "All nine runs", "moved": moving_sentence(found, before)} if self.all_open else {}
        kind, said = self._runs[-1]["run"], self._runs[-1]["said"]
        fits = {True: "fits", False: "does not fit"}
        rows = [[str(BY_LETTER[each]), word, prediction(each, kind).word, fits[fits_alone(each, kind)]] for each, word in said.items()]
        return {
            "title": f"Run {len(self._runs)} of {TO_SPEND}: {name_of(kind)}",
            "text": told(kind),
            "caption": f"Compared with the gas run, its effect is: {beside_gas(kind).word}",
            "head": ["cause", "you said", "model", "alone"],
            "rows": rows,
            "moved": f"{moving_sentence(found, before)}{_alike({word for _, _, word, _ in rows})}",
        }

    def _buy(self, values):
        run, *fields = (values.get(field, "") for field in self._fields())
        if not run or run in self._bought:
            return "Choose a run first."
        said = dict(zip(self._chips, fields))
        missing = [each for each, word in said.items() if not word]
        if missing:
            return f"Say first what {BY_LETTER[missing[0]]} predicts. A guess is welcome."
        self._keeping.add(self.name, "run", run=run, said=said)
        return ""

    def _open(self, _values):
        self._keeping.add(self.name, "opened")
        return "All nine runs are open now."

    def _should(self, values):
        if not values.get("should"):
            return "Choose a run first."
        self._keeping.add(self.name, "should", run=values["should"])
        return ""


def _options(letter):
    return [(word, word) for word in ((*WORDS[:-1], TURNED, WORDS[-1]) if letter == "f" else WORDS)]


def _legend(letter):
    return LEGEND.format(letter=letter, name=BY_LETTER[letter].name)


def _alike(words):
    """What to say where the model has one word for all of the learner's causes."""
    return f" {SAME_WORD}" if len(words) == 1 and "can't say" not in words else ""


def _judged(chosen, rows):
    """What the run that should have been bought would have told, beside all others: `rows` are those of `best_first`."""
    by = {run: size for run, size, _ in rows}
    best, most, out = rows[0]
    words = NONE_SHORTENS if most == difference(0, 1) else BEST if by[name_of(chosen)] == most else YOURS
    yours = words.format(run=name_of(chosen), by=by[name_of(chosen)], best=best.capitalize(), most=most, out=out)
    table = {"is": "rows", "key": "telling", "caption": BY_SIZE, "head": BY_SIZE_HEAD, "rows": [list(each) for each in rows]}
    return [text("yours", yours, tone="kept"), table]
