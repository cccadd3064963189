"""Pieces of a page. Every text is escaped here, so that no name or note can run as markup."""

import re
from html import escape

LONG_WORD = re.compile(r"(\S{16})(?=\S)")


def element(kind, *inside, **attributes):
    """One element around pieces that are HTML already; attributes are escaped (`cls` for class, `scope_` for scope)."""
    names = {"cls": "class", "id_": "id"}
    told = "".join(f' {names.get(name, name)}="{escape(str(value))}"' for name, value in attributes.items() if value not in (None, False))
    return f"<{kind}{told}>{''.join(inside)}</{kind}>"


def said(kind, text, **attributes):
    """One element around a text; its line breaks are kept, and a word that is too long for a column may be broken."""
    lines = LONG_WORD.sub(r"\1\0", str(text).replace("\0", "")).splitlines()
    return element(kind, "<br>".join(escape(line).replace("\0", "<wbr>") for line in lines), **attributes)


def paragraphs(text, **attributes):
    """A text, one paragraph a line, each in the direction that its script is read in."""
    return "".join(said("p", line, dir="auto", **attributes) for line in str(text).splitlines() if line.strip())


def table(caption, rows, heads=()):
    """A table with a caption; the first cell of each row is its heading."""
    top = element("thead", element("tr", *(said("th", head, scope="col") for head in heads))) if heads else ""
    body = [element("tr", said("th", first, scope="row"), *(said("td", cell) for cell in rest)) for first, *rest in rows]
    return element("table", said("caption", caption) if caption else "", top, element("tbody", *body))


def bullets(texts):
    """A list; nothing for no texts."""
    lines = [said("li", text) for text in texts]
    return element("ul", *lines) if lines else ""


def section(heading, *inside, level=2, id_=None):
    """A part of the page under its heading."""
    return element("section", said(f"h{level}", heading), *inside, id_=id_)


def figure(picture, cls=None):
    """A picture (SVG) that a narrow screen scrolls sideways, so that its letters stay large enough to read; nothing for ''."""
    return element("figure", picture, cls=cls, tabindex="0") if picture else ""


def details(summary, *inside):
    """A part that stands closed on a screen and is left out on paper."""
    return element("details", said("summary", summary), *inside)
