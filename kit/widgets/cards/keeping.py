"""The answers of a lesson inside one kernel: cards add to them here, and hear here what other cards added."""

from functools import cache

import traitlets

from kit.coursework import add_answer, Answer, answers_path, Kept, read_answers


class Keeping(traitlets.HasTraits):
    """All that was answered in one lesson, on disk before it shows. Observe `kept` to hear of changes."""

    kept = traitlets.Instance(Kept)

    def __init__(self, path):
        self.path = path
        super().__init__(kept=read_answers(path))
        self.remark = self.kept.remark

    def add(self, card, kind, **content):
        """Keep one more answer, then tell every card; gives 'Kept at 14:06.' for the card's status line."""
        answer = Answer(card, kind, content)
        self.kept = add_answer(self.path, answer, self.kept.answers)
        self.remark = self.kept.remark or self.remark
        return f"Kept at {time_of(answer)}."

    def decided(self, card):
        """Has this prediction been made, or passed over?"""
        return self.kept.latest(card, "prediction", "skipped") is not None


def keeping_of(lesson):
    """The one `Keeping` of lesson `lesson` ('00') for the notebook's folder in this kernel."""
    return keeping_at(answers_path(lesson))


def time_of(answer):
    """'14:06', the time of day an answer was kept."""
    return answer.at[11:16]


@cache
def keeping_at(path):
    """The one `Keeping` of the file of answers at `path`: one object for one file, or a card could not hear what another keeps."""
    return Keeping(path)
