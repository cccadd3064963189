"""The words of a lesson: grade 8 or below, short sentences, none of the words that mislead or scold."""

import re
import tomllib

import pytest

from kit.units import marked
from tests.lessons.reading import PAGES, cells, grade, prose, sentences, source, syllables

# Words the kit does not use for learners: a verdict, a false picture, or a claim that is too strong.
FORBIDDEN = (
    r"\b(trap\w*|blanket\w*|greenhouse|prov(?:e|es|ed|en)|exact(?:ly)?|errors?|obvious(?:ly)?|simpl[ey]|just|wrong|incorrect"
    r"|unfortunately|clearly)\b|!(?!\[)"
)
LONGEST, MEAN, HARDEST, HARDEST_CELL, MOST_WORDS, MOST_IN_A_CELL = 25, 15, 8, 10, 900, 80


def of_cells(path):
    return [prose(source(cell)) for cell in cells(path, "markdown")]


def of_cards(path):
    """Every text of the TOML beside a notebook, each as a sentence or more."""
    table = path.with_suffix(".toml")
    return [prose(text) for text in _texts(tomllib.loads(marked(table.read_text(encoding="utf-8"))))] if table.exists() else []


def _texts(thing):
    if isinstance(thing, dict):
        return [text for name, value in thing.items() if name not in ("key", "number", "run", "unit") for text in _texts(value)]
    if isinstance(thing, list):
        return [text for value in thing for text in _texts(value)]
    return [thing] if isinstance(thing, str) else []


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
class TestEachLesson:
    def test_it_reads_at_grade_8_or_below(self, path):
        hard = {name: grade(" ".join(texts)) for name, texts in (("cells", of_cells(path)), ("cards", of_cards(path))) if texts}
        assert max(hard.values()) <= HARDEST, hard

    def test_no_long_text_is_harder_than_grade_10(self, path):
        long = [text for text in (*of_cells(path), *of_cards(path)) if len(text.split()) >= 40]
        assert not [text for text in long if grade(text) > HARDEST_CELL]

    def test_sentences_are_short(self, path):
        lengths = {" ".join(words): len(words) for text in (*of_cells(path), *of_cards(path)) for words in sentences(text)}
        assert not [words for words, length in lengths.items() if length > LONGEST]
        assert sum(lengths.values()) / len(lengths) <= MEAN

    def test_no_word_misleads_or_scolds(self, path):
        assert not [found.group() for text in (*of_cells(path), *of_cards(path)) for found in re.finditer(FORBIDDEN, text, re.IGNORECASE)]

    def test_cells_are_short(self, path):
        open_ = [prose(re.sub(r"<details>.*?</details>", "", source(cell), flags=re.DOTALL)) for cell in cells(path, "markdown")]
        counts = [len(text.split()) for text in open_]
        assert max(counts) <= MOST_IN_A_CELL and sum(counts) <= MOST_WORDS


def test_the_grade_of_a_known_sentence():
    """0.39 * 6 + 11.8 * 6 / 6 - 15.59 by hand; the formula is that of Kincaid and others 1975 (from memory)."""
    assert grade("The cat sat on the mat.") == pytest.approx(-1.45)


@pytest.mark.parametrize(("word", "count"), [("vessel", 2), ("temperature", 3), ("perturbation", 4), ("Chert", 1), ("thermometer", 4)])
def test_syllables_as_a_dictionary_divides_them(word, count):
    """Counts as dictionaries of English give them (common practice, no source); the second e of 'temperature' is silent."""
    assert syllables(word) == count


def test_every_forbidden_kind_is_found():
    said = "Obviously the blanket traps heat! This proves it exactly, without errors; the greenhouse is just wrong."
    assert len(re.findall(FORBIDDEN, said, re.IGNORECASE)) == 10
