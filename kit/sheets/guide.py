"""The guide as one page for paper: every text in `lessons/teacher`, then every sheet, under one list of contents."""

import re

from kit.coursework import TEACHERS
from kit.report import document, element, from_markdown, said, write_whole
from kit.sheets.sheet import LOOK, sheet_body, sheet_titles

FIRST, TITLE = "guide.md", "Guide for teachers"
HEAD = re.compile(r"<h2>(.*?)</h2>", re.DOTALL)
STYLE = """
.contents { columns: 2; list-style: none; padding: 0; } .contents li { break-inside: avoid; margin: 0.15rem 0; }
thead th { overflow-wrap: normal; } pre, code { overflow-wrap: anywhere; white-space: pre-wrap; }
@media print { .leaf { break-before: page; } .contents a { color: inherit; text-decoration: none; } }
@media (max-width: 40rem) { .contents { columns: 1; } }
"""


def write_guide(path):
    """Write the guide to `path`; gives it. A Fault where the disk refuses, or where a text names what is not there."""
    write_whole(path, guide_page())
    return path


def guide_page():
    """The whole guide as one HTML text that needs no network. Each chapter begins a page on paper, except the short ones before the lessons."""
    chapters = [*_of_texts(), *_of_sheets()]
    lines = [element("li", element("a", heading, href=f"#part-{place}")) for place, (heading, _, _) in enumerate(chapters)]
    contents = element("nav", said("h2", "What is in it"), element("ul", *lines, cls="contents"))
    parts = [element("section", f"<h2>{heading}</h2>{body}", id_=f"part-{place}", cls=leaf) for place, (heading, body, leaf) in enumerate(chapters)]
    return document(TITLE, element("style", LOOK + STYLE), contents, *parts)


def _of_texts():
    """(heading, HTML, class) of each chapter of the texts, the guide's own first."""
    for path in sorted(TEACHERS.glob("*.md"), key=lambda each: (each.name != FIRST, each.name)):
        first, *rest = HEAD.split(from_markdown(path.read_text(encoding="utf-8"), path.parent))
        title, _, opening = first.partition("</h1>")
        if opening.strip() or not rest:
            yield ("How to use it", opening, None) if path.name == FIRST else (title.replace("<h1>", "").strip(), opening, "leaf")
        short = path.name == FIRST
        for heading, body in zip(rest[::2], rest[1::2]):
            short = short and not re.match(r"\d", heading)  # until the first lesson
            yield heading, body, None if short else "leaf"


def _of_sheets():
    """The same of each sheet, its own headings one step lower."""
    for name in sheet_titles():
        title, body = sheet_body(name)
        lower = re.sub(r"<(/?)h([2-5])\b", lambda found: f"<{found[1]}h{int(found[2]) + 1}", body)
        yield said("span", f"Sheet: {title}"), lower, "leaf"
