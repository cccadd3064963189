"""Texts in Markdown as pieces of a page: what a teacher reads and may change with any editor."""

import re
from pathlib import Path
from xml.etree import ElementTree

from mistune import create_markdown, HTMLRenderer

from kit.faults import Fault

NO_PICTURE = "The picture {url} is not there. Pictures are SVG files; the place is told from the folder of the text."
COMMENT = re.compile(r"^[ \t]*<!--.*?-->\s*$", re.DOTALL | re.MULTILINE)


def from_markdown(text, folder="."):
    """Markdown (headings, lists, tables, bold, pictures) as HTML that needs nothing from outside. Markup in it stays text, comments are left
    out; a picture is an SVG file, its place told from `folder`, and is drawn into the page. A Fault for a picture that is not there."""
    render = create_markdown(renderer=Pieces(Path(folder)), plugins=["table"])
    return render(COMMENT.sub("", text)).replace("<th></th>", "<td></td>").replace("<th>", '<th scope="col">')


class Pieces(HTMLRenderer):
    """What Markdown is made into here: pictures stand in the page itself, links are left as words."""

    def __init__(self, folder):
        super().__init__(escape=True)
        self.folder = folder

    def image(self, text, url, title=None):
        """The SVG itself, with a title and a description of its own."""
        try:
            drawn = (self.folder / url).read_text(encoding="utf-8")
            ElementTree.fromstring(drawn)
        except (OSError, ElementTree.ParseError) as problem:
            raise Fault(NO_PICTURE.format(url=url)) from problem
        return f'<span class="picture">{drawn}</span>'

    def link(self, text, url, title=None):
        """Its words alone: paper follows no link."""
        return text
