"""What a lesson lacks, in sentences: gates, questions for each goal, feedback on each choice, words that can be read, minutes that add up."""

import json
import re
from dataclasses import dataclass

from kit.course.packing import TEACHERS_TAG
from kit.course.words import grade, prose, sentences
from kit.coursework import outlines, read_lesson
from kit.faults import Fault
from kit.words import listed

HARDEST, LONGEST = 8, 25  # grade for fourteen-year-olds, words in a sentence: our own practice, from no source
WORDS_A_MINUTE, PREDICTION, VIEW, QUESTION, NOTE, FURTHER, WITHIN = 130, 1.5, 4, 1.2, 3, 2, 0.25
RESULTS = ("chart", "paired_effect", "fit_warming", "compare", "class_effect", "possible_causes", "weigh_causes", "check_steady", "calibrate", "watch")
STEP_MIN = re.compile(r"^## Step \d+ of \d+: .* \((\d+) min\)$", re.MULTILINE)
HEAD_MIN = re.compile(r"^(\d+) minutes", re.MULTILINE)


@dataclass(frozen=True)
class Lacks:
    """What one lesson lacks: its `name`, and `sentences` on what is missing and what to do; none if nothing is."""

    name: str
    sentences: tuple

    def __str__(self):
        told = "".join(f"\n  - {sentence}" for sentence in self.sentences)
        return f"{self.name}: {'nothing is missing.' if not self.sentences else told}"


def lacks_of(path):
    """The `Lacks` of the lesson in the notebook at `path`, with the TOML beside it. Its cells are not run here."""
    try:
        outline = next(each for each in outlines(path.parent) if each.path == path)
        lesson = read_lesson(outline.number or path.stem, path.parent)
    except Fault as fault:
        return Lacks(path.stem, (str(fault),))
    except (ValueError, KeyError, IndexError, StopIteration) as problem:
        return Lacks(path.stem, (f"It can't be read: {problem}",))
    if not lesson.number:
        return Lacks(path.stem, ())  # a page of its own, such as that for own runs: it promises no goals and no minutes
    cells = [cell for cell in _cells(path) if TEACHERS_TAG not in cell["metadata"].get("tags", ())]
    found = [*_gates(lesson, outline, cells), *_goals(lesson, cells), *_choices(lesson, outline), *_reading(lesson, cells), *_minutes(lesson, cells)]
    return Lacks(path.stem, tuple(found))


def can_hand_in(course):
    """Has any lesson of an `OwnCourse` a cell by which learners hand in? A lesson whose page is missing or can't be read has none."""
    pages = [path for name in course.lessons if (path := course.folder / f"{name}.ipynb").is_file()]
    return any(re.search(r"\bhand_in\w*\(", path.read_text(encoding="utf-8", errors="replace")) for path in pages)


def _cells(path):
    return json.loads(path.read_text(encoding="utf-8"))["cells"]


def source_of(cell):
    return "".join(cell["source"])


def _texts(cells):
    return [source_of(cell) for cell in cells if cell["cell_type"] == "markdown"]


def _code(cells):
    return [source_of(cell) for cell in cells if cell["cell_type"] == "code"]


def _gates(lesson, outline, cells):
    """Each prediction is asked, holds something back, and comes back where its card says so; no result stands open before."""
    places = {task: step.number for step in outline.steps for task in reversed(step.tasks)}
    code = _code(cells)
    if not lesson.predictions:
        yield "It asks for no prediction. Begin with one: what would they say before they see the result?"
    for each in lesson.predictions:
        card = f"{lesson.number}.{each.key}"
        spots = [next((n for n, text in enumerate(code) if f'{verb}("{card}"' in text), None) for verb in ("predict", "after", "recall")]
        asked, opened, again = spots
        if None in spots:
            missing = listed(f'{verb}("{card}", …)' for verb, at in zip(("predict", "after", "recall"), spots) if at is None)
            yield f"The prediction {each.key!r} has no cell with {missing}. A prediction is asked, holds a result back, and is looked at again."
        elif not asked < opened <= again:
            yield f"The prediction {each.key!r} is asked after its result shows. Put predict before after, and recall last."
        for verb, told, name in (("predict", each.step, "step"), ("recall", each.back, "back")):
            if (verb, card) in places and places[verb, card] != told:
                yield f"The prediction {each.key!r} says {name} = {told}, but {verb} stands in step {places[verb, card]}."
    first = next((n for n, text in enumerate(code) if "recall(" in text), len(code))
    yield from (f"A result shows that no prediction holds back: {line}. Write after(…, …) around it." for line in map(_shown, code[:first]) if line)


def _shown(text):
    """The last line of a cell, if it shows a result as it is."""
    last = text.rstrip().splitlines()[-1] if text.strip() else ""
    return last if re.match(rf"(?:{'|'.join(RESULTS)})\(", last) else ""


def _goals(lesson, cells):
    """Every goal has a question, every question a goal."""
    goals = set(map(int, re.findall(r"Goal (\d+)\.", " ".join(_texts(cells)))))
    asked = {question.goal for question in lesson.questions}
    if not goals:
        yield "It names no goals. Write a list near the top: - **Goal 1.** Say what …"
    yield from (f"No question asks about goal {goal}. Add one in {lesson.number}…toml with the line goal = {goal}." for goal in sorted(goals - asked))
    yield from (f"A question serves goal {goal}, which the page does not name." for goal in sorted(asked - goals) if goals)


def _choices(lesson, outline):
    """Every choice has feedback; each that misses stands for an idea, and sends back to a step that exists."""
    steps = {step.number for step in outline.steps}
    for number, question in enumerate(lesson.questions, start=1):
        if len(question.choices) < 3:
            yield f"Question {number} has {len(question.choices)} choices. With fewer than three, guessing pays."
        for choice in question.choices:
            where = f"Question {number}, choice {choice.text!r}"
            if not choice.feedback.strip():
                yield f"{where}: there is no feedback. Say why somebody would choose it, and what speaks against it."
            if not choice.right and not choice.idea.strip():
                yield f"{where}: the line 'idea' is missing. Which idea stands behind it?"
            if not choice.right and choice.back not in steps:
                yield f"{where}: back = {choice.back} is no step of the page. It has {listed(sorted(steps)) if steps else 'none'}."


def _reading(lesson, cells):
    """The words can be read by a fourteen-year-old."""
    cards = [text for question in lesson.questions for text in (*question.texts,)]
    cards += [text for each in lesson.predictions for text in (each.stem, each.says, *(choice.text for choice in each.choices))]
    for name, texts in (("page", _texts(cells)), ("cards", cards)):
        told = " ".join(map(prose, texts))
        if (reached := grade(told)) > HARDEST:
            hard = max(sentences(told), key=len)
            yield f"The text of the {name} reads at grade {reached:.1f}; up to {HARDEST} suits fourteen-year-olds. Its longest sentence: {' '.join(hard)}."
    long = [line for text in (*_texts(cells), *cards) for line in sentences(prose(text)) if len(line) > LONGEST]
    yield from (f"A sentence has {len(line)} words, more than {LONGEST}: {' '.join(line[:9])} …" for line in long)


def _minutes(lesson, cells):
    """The minutes in the head, in the steps and in the TOML are the same, and fit the work."""
    texts = _texts(cells)
    steps = sum(map(int, STEP_MIN.findall("\n".join(texts))))
    head = next((int(found[1]) for text in texts if (found := HEAD_MIN.search(text))), None)
    if head is None or not steps:
        yield "It promises no minutes. Write '30 minutes: …' into the first cell, and the minutes of each step into its heading: (3 min)."
    elif not head == steps == lesson.minutes:
        yield f"The first cell promises {head} minutes, the steps add up to {steps}, and the TOML says minutes = {lesson.minutes}. Make them one."
    elif abs(work_min(lesson, cells) - head) > WITHIN * head:
        yield f"{head} minutes are promised; reading, predicting, trying and answering take about {work_min(lesson, cells):.0f}."


def work_min(lesson, cells):
    """Minutes for a lesson by our own rule: words to read, and a while for each prediction, view, question and note."""
    asked = [text for question in lesson.questions for text in (question.stem, question.right.feedback, *(each.text for each in question.choices))]
    asked += [text for card in lesson.predictions for text in (card.stem, card.says, *(each.text for each in card.choices))]
    words = sum(len(text.split()) for text in [*map(prose, _texts(cells)), *asked])
    views = sum(bool(re.search(r"\bafter\(|_view\(", text)) for text in _code([cell for cell in cells if cell["metadata"].get("tags") == ["do"]]))
    cards = PREDICTION * len(lesson.predictions) + QUESTION * len(lesson.questions) + NOTE * len(lesson.notes)
    return words / WORDS_A_MINUTE + VIEW * views + cards + FURTHER
