"""A sheet: a text in Markdown, its numbers filled in from the kit and from the class's settings, as a page to print."""

import re
from pathlib import Path

from kit.coursework import TEACHERS
from kit.faults import Fault
from kit.report import document, element, from_markdown, write_whole
from kit.sheets.numbers import known
from kit.sheets.parts import PARTS
from kit.storage import here
from kit.units import marked

FOLDER, PAGES = "sheets", "pages"
NAME = re.compile(r"\{([\w.]+)\}")
ALONE = re.compile(r"<p>\{([\w.]+)\}</p>")
NO_SHEET = "There is no sheet {name!r}. There are: {names}."
NOT_KNOWN = "The sheet {name} asks for {{{what}}}, which the kit does not know. Mend that name, or write what should stand there."
LOOK = """
table { border: 1px solid #555; } th, td { border: 1px solid #999; padding: 0.25rem 0.5rem; overflow-wrap: break-word; } thead th { background: #eee; }
td:empty { min-width: 5rem; height: 1.9em; } tbody th { width: auto; } hr { border: 0; border-top: 1px dashed #777; margin: 1.2rem 0; }
.picture { display: block; overflow-x: auto; } .picture svg { display: block; width: 100%; height: auto; max-width: 42rem; min-width: 26rem; margin: 0 auto; }
.tick { list-style: none; padding-left: 0.3rem; }
@media print { hr { break-after: page; border: 0; margin: 0; } h2, h3 { break-after: avoid; } .picture svg { min-width: 0; max-height: 84mm; }
  figure svg { max-height: 128mm; } thead th { background: none; } .picture, h3 + table { break-inside: avoid; } }
"""


def sheet_titles():
    """{name: title} of every sheet, in the order of their files' names. One in a folder `sheets` beside the desk goes before the kit's own."""
    return {name: _parted(path.read_text(encoding="utf-8"))[0] for name, path in sorted(_files().items())}


def sheet_page(name):
    """One sheet as an HTML text that needs no network, its numbers as they are for this class. A Fault for a sheet or a number that is not there."""
    title, body = sheet_body(name)
    return document(title, element("style", LOOK), body)


def sheet_body(name):
    """(title, HTML) of one sheet, without the page around it. Faults as `sheet_page`."""
    path = _files().get(name)
    if path is None:
        raise Fault(NO_SHEET.format(name=name, names=", ".join(sorted(_files()))))
    title, text = _parted(_filled(name, path.read_text(encoding="utf-8")))
    return title, ALONE.sub(lambda found: PARTS[found[1]](), from_markdown(text, path.parent))


def write_sheets(names, folder="."):
    """Write these sheets into the folder `pages` in `folder`, a page each; gives their paths."""
    pages = {Path(folder) / PAGES / f"{name}.html": sheet_page(name) for name in names}
    for path, html in pages.items():
        write_whole(path, html)
    return tuple(pages)


def _files():
    return {path.stem: path for place in (TEACHERS / FOLDER, here(FOLDER)) if place.is_dir() for path in place.glob("*.md")}


def _parted(text):
    """(title, the rest) of a sheet: its title is the first line."""
    first, _, rest = text.lstrip().partition("\n")
    return first.lstrip("# ").strip(), rest


def _filled(name, text):
    """The text with its temperatures as the class reads them, and every {number} filled in; what stands alone for a part waits for it."""

    def told(found):
        if found[1] in PARTS:
            return found[0]
        value = known(found[1])
        if value is None:
            raise Fault(NOT_KNOWN.format(name=name, what=found[1]))
        return value

    return NAME.sub(told, marked(text))
