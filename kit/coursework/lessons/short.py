"""The short texts of a lesson: the same steps, choices and questions in fewer words. They lie under the lesson's name in `short/` beside it.

`[pages]` holds a text for each text cell, by the cell's id, without its heading; {picture} stands for the cell's next picture. A card has a
table by its kind and key, `[questions.result]`, with the texts that differ; `feedback` and `samples` list theirs in the order of the lesson.
Headings, choices, ideas and right answers stand in the lesson alone, so both say the same, and what was answered holds in either.
"""

import json
import re
import tomllib

from kit.settings import class_settings

FULL, SHORT = "full", "short"
CARDS = ("predictions", "questions", "notes")
LISTED = {"feedback": ("choices", "feedback"), "samples": ("samples", "text")}  # the line in the short file: the list, and what of each in it
PICTURE = re.compile(r"!\[[^\]]*\]\(data:[^)]*\)")
HEADING = re.compile(r"#+ .*")


def class_language(folder=None):
    """'full' or 'short': what the class's settings ask of a lesson in `folder`."""
    return class_settings(folder)["language"]


def short_file(lesson):
    """Where the short texts of a lesson would lie; `lesson` is the path of its notebook, or of the TOML beside that."""
    return lesson.parent / SHORT / f"{lesson.stem}.toml"


def with_short_cards(table, short):
    """A lesson's table with the card texts that `short` has. A list of another length than the lesson's, as after a change there, is passed over."""
    return {**table, **{kind: [_shortened(card, short.get(kind, {}).get(card.get("key"), {})) for card in table.get(kind, [])] for kind in CARDS}}


def _shortened(card, texts):
    plain = {name: text for name, text in texts.items() if name not in LISTED}
    lists = {}
    for line, (name, part) in LISTED.items():
        if line in texts and len(texts[line]) == len(card.get(name, [])):
            lists[name] = [{**each, part: text} for each, text in zip(card[name], texts[line])]
    return {**card, **plain, **lists}


def page_of(notebook, language=FULL):
    """A lesson's notebook as a dict, its text cells as that language has them. Code, ids, headings and pictures are the same in both."""
    book, path = json.loads(notebook.read_text(encoding="utf-8")), short_file(notebook)
    if language == FULL or not path.exists():
        return book
    texts = tomllib.loads(path.read_text(encoding="utf-8")).get("pages", {})
    for cell in book["cells"]:
        if cell["cell_type"] == "markdown" and cell.get("id") in texts:
            cell["source"] = _said_shortly("".join(cell["source"]), texts[cell["id"]]).splitlines(keepends=True)
    return book


def _said_shortly(source, text):
    heading, pictures = HEADING.match(source), iter(PICTURE.findall(source))
    body = re.sub(r"\{picture\}", lambda _: next(pictures, ""), text.strip())
    return f"{heading[0]}\n\n{body}" if heading else body
