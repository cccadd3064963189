"""How hard a text is to read, without a dictionary: close enough to tell a teacher which sentence to cut."""

import re

VOWELS = re.compile(r"[aeiouyäöü]+")
SILENT = re.compile(r"(?:[^laeiouy]es|[^td]ed|[^l]e)$")


def prose(text):
    """The words that a reader reads: without pictures, folded hints, marks and numbers in braces; every line ends in a full stop."""
    text = re.sub(r"!\[[^\]]*\]\([^)]*\)|<[^>]+>|`[^`]*`|[{}*]", " ", text)
    text = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", text)
    lines = [re.sub(r"^(#+|-|>|\d+\.)\s+", "", line.strip()).strip() for line in text.splitlines()]
    return " ".join(line if line[-1] in ".?!" else f"{line.rstrip(':')}." for line in lines if line)


def sentences(text):
    """The sentences of `prose` as lists of words."""
    found = [re.findall(r"[^\W\d_][\w'’]*|\d[\d.,]*", part) for part in re.split(r"(?<=[.?!])\s+", text)]
    return [words for words in found if words]


def grade(text):
    """Flesch-Kincaid grade: 0.39 words a sentence + 11.8 syllables a word - 15.59 (Kincaid and others 1975, from memory). 0 of no text."""
    lines = sentences(text)
    words = [word for line in lines for word in line]
    return 0.39 * len(words) / len(lines) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59 if words else 0.0


def syllables(word):
    """Vowel sounds of an English word by its spelling: groups of vowels, less a silent ending. A figure counts as one."""
    word = word.lower()
    groups = len(VOWELS.findall(word))
    return max(1, groups - bool(groups > 1 and SILENT.search(word)))
