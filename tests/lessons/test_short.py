"""The short texts of each lesson: the same skeleton as the usual ones, in far fewer and easier words."""

import re
import tomllib

import pytest

from kit.coursework import page_of, read_lesson, short_file
from kit.settings import NAME
from kit.units import marked
from tests.lessons.reading import cells, grade, number, PAGES, prose, sentences, source
from tests.lessons.test_language import FORBIDDEN

# Our own practice, from no source: what a weak reader can take in. About 400 words a page, without its headings, which are the same in both.
HARDEST, MEAN, LONGEST, MOST_WORDS, MOST_IN_A_CELL, FEEDBACK = 6, 12, 20, 420, 60, range(6, 27)
ALIKE = {
    "headings": r"^#+ .*$", "minutes": r"^\d+ minutes", "goals": r"\*\*Goal \d\.\*\*", "answers": r"\(Goal \d, questions? [\d and,]+\)",
    "pictures": r"!\[[^\]]*\]\([^)]*\)", "folds": r"</?details>|<summary>.*</summary>", "listed": r"^(?:-|\d\.) ", "lessons": r"Lesson \d\d",
    "start": r"starts by itself|\*\*Start this lesson\*\*",
}  # fmt: skip
LINES = {"predictions": {"stem", "says"}, "questions": {"stem", "hint", "feedback"}, "notes": {"prompt", "starters", "samples", "look_for"}}
WITHIN = {"feedback": ("choices", "feedback"), "samples": ("samples", "text")}
WHOLE = {"02-safe", "at-home-safe", "at-home-safegas", "at-home-set"}  # cautions and a recipe: nothing is left out of them, and they are not counted
BRACED = re.compile(r"\{[^}]*\}")


def short_of(path):
    return tomllib.loads(short_file(path).read_text(encoding="utf-8"))


def table_of(path):
    return tomllib.loads(path.with_suffix(".toml").read_text(encoding="utf-8"))


def pairs(path):
    """(usual text, short text) of every text that a card has in both."""
    usual = {(kind, card["key"]): card for kind in LINES for card in table_of(path).get(kind, [])}
    for kind in LINES:
        for key, texts in short_of(path).get(kind, {}).items():
            card = usual[kind, key]
            for line, text in texts.items():
                name, part = WITHIN.get(line, (line, None))
                told = [each[part] for each in card[name]] if part else card[line]
                yield from zip(told, text, strict=True) if isinstance(text, list) else [(told, text)]


def of_pages(path, language="short"):
    return [source(cell) for cell in page_of(path, language)["cells"] if cell["cell_type"] == "markdown"]


def said(path):
    """{page, cards: texts as sentences}: all that a short lesson says, and of its cards what is not the same in both."""
    return {"page": list(map(prose, of_pages(path))), "cards": [prose(marked(text)) for _, text in pairs(path)]}


def test_every_lesson_has_short_texts():
    assert [path.stem for path in PAGES if not short_file(path).exists()] == []
    assert {path.stem for path in short_file(PAGES[0]).parent.iterdir()} <= {path.stem for path in PAGES}


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
class TestEachLesson:
    def test_it_names_only_cells_cards_and_lines_that_there_are(self, path):
        short, table = short_of(path), table_of(path)
        assert set(short.pop("pages")) == {cell["id"] for cell in cells(path, "markdown")}
        assert set(short) <= set(LINES) and all(set(short[kind]) <= {card["key"] for card in table[kind]} for kind in short)
        assert all(set(texts) <= LINES[kind] for kind in short for texts in short[kind].values())

    def test_every_question_has_its_feedback_in_both(self, path):
        usual, short = table_of(path), short_of(path)
        counts = {card["key"]: len(card["choices"]) for card in usual.get("questions", [])}
        assert {key: len(card["feedback"]) for key, card in short.get("questions", {}).items()} == counts

    def test_code_cells_and_all_but_words_are_the_same(self, path):
        usual, short = cells(path), page_of(path, "short")["cells"]
        bare = [[{**cell, "source": "" if cell["cell_type"] == "markdown" else source(cell)} for cell in each] for each in (usual, short)]
        assert bare[0] == bare[1]

    @pytest.mark.parametrize("what", ALIKE)
    def test_the_skeleton_of_each_cell_is_the_same(self, path, what):
        both = [[re.findall(ALIKE[what], text, re.MULTILINE) for text in of_pages(path, language)] for language in ("full", "short")]
        assert both[0] == both[1]

    def test_numbers_and_marks_are_those_of_the_usual_texts(self, path):
        assert [(usual, short) for usual, short in pairs(path) if set(BRACED.findall(usual)) != set(BRACED.findall(short))] == []
        both = [*pairs(path), *zip(of_pages(path, "full"), of_pages(path), strict=True)]
        assert [short for usual, short in both if not figures(short) <= figures(usual) or "°" in short] == []

    def test_the_cards_ask_the_same(self, path, tmp_path, monkeypatch):
        usual = read_lesson(number_of(path), tmp_path)
        (tmp_path / NAME).write_text('[show]\nlanguage = "short"\n', encoding="utf-8")
        short = read_lesson(number_of(path), tmp_path)
        assert short != usual and skeleton(short) == skeleton(usual)

    def test_it_reads_at_grade_6_or_below(self, path):
        assert {name: grade(" ".join(texts)) for name, texts in said(path).items() if texts and grade(" ".join(texts)) > HARDEST} == {}

    def test_sentences_are_short(self, path):
        lengths = [len(words) for texts in said(path).values() for text in texts for words in sentences(text)]
        assert sum(lengths) / len(lengths) <= MEAN and max(lengths) <= LONGEST

    def test_words_are_few(self, path):
        counts = {cell["id"]: words_in(source(cell)) for cell in page_of(path, "short")["cells"] if cell["cell_type"] == "markdown"}
        assert sum(count for name, count in counts.items() if name not in WHOLE) <= MOST_WORDS and max(counts.values()) <= MOST_IN_A_CELL
        assert [(usual, short) for usual, short in pairs(path) if len(short.split()) > len(usual.split())] == []

    def test_feedback_is_a_sentence_or_two_or_three(self, path):
        told = [text for card in short_of(path).get("questions", {}).values() for text in card["feedback"]]
        assert [text for text in told if len(text.split()) not in FEEDBACK] == []

    def test_no_word_misleads_or_scolds(self, path):
        assert [found.group() for texts in said(path).values() for text in texts for found in re.finditer(FORBIDDEN, text, re.IGNORECASE)] == []


def words_in(text):
    """How many words of a text cell stand open, its heading apart."""
    return len(prose(re.sub(r"<details>.*?</details>|^#[^\n]*", "", text, flags=re.DOTALL | re.MULTILINE)).split())


def figures(text):
    """The numbers that stand in a text, pictures apart."""
    return set(re.findall(r"\d+(?:[.,]\d+)?", re.sub(r"!\[[^\]]*\]\([^)]*\)", "", text)))


def number_of(path):
    return table_of(path)["number"] or path.stem


def skeleton(lesson):
    """All of a lesson that is no wording: keys, steps, choices in their order, which is right, ideas, what a prediction says of which number."""
    predictions = [(each.key, each.step, each.back, each.number, each.choices, each.ways) for each in lesson.predictions]
    questions = [(each.key, each.goal, [(c.text, c.right, c.idea, c.back) for c in each.choices]) for each in lesson.questions]
    return predictions, questions, [(each.key, [title for title, _ in each.samples]) for each in lesson.notes], lesson.title, lesson.minutes
