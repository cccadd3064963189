"""What went wrong, said so that a learner can act on it; and cautions that travel with a result."""

from dataclasses import dataclass


class Fault(ValueError):
    """Something a learner can put right. Its text says what happened, where, and what to do next.

    In a notebook it shows as that text alone, without a traceback.
    """

    def _render_traceback_(self):
        return [str(self)]


class IntakeFault(Fault):
    """A file that can't be read as it is. Names file, line and column, what was seen, and the keyword that settles it.

    `line` and `column` count from 1, as a text editor or a spreadsheet does; `column` may also be a column's name.
    """

    def __init__(self, what, do="", *, file=None, line=None, column=None, seen=None, keyword=None):
        self.what, self.do = what, do
        self.file, self.line, self.column, self.seen, self.keyword = file, line, column, seen, keyword
        super().__init__(" ".join(part for part in (self._where(), what, do) if part))

    def _where(self):
        named = {"": self.file, "line ": self.line, "column ": self.column}
        places = [f"{word}{value}" for word, value in named.items() if value not in (None, "")]
        return f"{', '.join(places)}:" if places else ""


@dataclass(frozen=True)
class Caution:
    """A warning that belongs to a result: a short code for programs, a sentence for people."""

    code: str
    text: str

    def __str__(self):
        return self.text
