"""What went wrong, said so that a learner can act on it; the choices that would settle it; and cautions that travel with a result."""

from dataclasses import dataclass

from kit.words import listed

SHOWN = 6  # choices that a sentence names; a form shows them all


class Fault(ValueError):
    """Something a learner can put right. Its text says what happened, where, and what to do next.

    In a notebook it shows as that text alone, without a traceback.
    """

    def _render_traceback_(self):
        return [str(self)]


@dataclass(frozen=True)
class Choice:
    """One answer to a question: the `value` to pass for its keyword, the `words` that say what it means, and what is `seen` of it in the
    file. Both are '' where the value speaks for itself."""

    value: object
    words: str = ""
    seen: str = ""

    def __str__(self):
        return self.seen or self.words or str(self.value)


@dataclass(frozen=True)
class Question:
    """One thing that a file leaves open: what is asked, the `keyword` that settles it, and the `choices`, a tuple of `Choice`.

    `more` says what else the keyword takes, where the choices are not all.
    """

    text: str
    keyword: str
    choices: tuple = ()
    more: str = ""

    @property
    def advice(self):
        """"Say clock='s', clock='min' or clock='h'.", with the words of each choice behind it."""
        shown = [self._written(choice) for choice in self.choices[:SHOWN]]
        rest = len(self.choices) - len(shown)
        if rest:
            shown.append(f"one of {rest} more")
        return " ".join(part for part in (f"Say {listed(shown, 'or')}." if shown else "", self.more) if part)

    def _written(self, choice):
        return f"{self.keyword}={choice.value!r}{f' ({choice.words})' if choice.words else ''}"


class IntakeFault(Fault):
    """A file that can't be read as it is. Names file, line and column, what was seen, and the questions whose answers settle it.

    `line` and `column` count from 1, as a text editor or a spreadsheet does; `column` may also be a column's name. `questions` are all
    that is open at once, each with its keyword and choices as data; the text is made from them. Of a fault that only names a `keyword`,
    the answer can't be chosen from a list.
    """

    def __init__(self, what, do="", *, file=None, line=None, column=None, seen=None, keyword=None, choices=(), questions=(), example=None):
        self.what, self.file, self.line, self.column, self.seen = what, file, line, column, seen
        self.questions = tuple(questions) or ((Question(what, keyword, tuple(choices), do),) if choices else ())
        self.example = example or {question.keyword: question.choices[0].value for question in self.questions}
        self.do = self._advice() if self.questions else do
        self.keyword = self.questions[0].keyword if self.questions else keyword
        super().__init__(" ".join(part for part in (self._where(), what, self.do) if part))

    def asking(self, questions, example):
        """The same fault with these questions, all of which the keywords of `example` settle."""
        places = dict(file=self.file, line=self.line, column=self.column, seen=self.seen)
        return IntakeFault(self.what, questions=questions, example=example, **places)

    def _where(self):
        named = {"": self.file, "line ": self.line, "column ": self.column}
        places = [f"{word}{value}" for word, value in named.items() if value not in (None, "")]
        return f"{', '.join(places)}:" if places else ""

    def _advice(self):
        """What to do about all questions: the first one's choices; of several, each with its own, and one call that settles all."""
        first, *others = self.questions
        if not others:
            return first.advice
        asked = [first.advice, *(f"{each.text} {each.advice}" for each in others)]
        answers = ", ".join(f"{keyword}={value!r}" for keyword, value in self.example.items())
        return f"{' '.join(asked)} One call settles all, for example: read_run(…, {answers})."


@dataclass(frozen=True)
class Caution:
    """A warning that belongs to a result: a short code for programs, a sentence for people."""

    code: str
    text: str

    def __str__(self):
        return self.text
