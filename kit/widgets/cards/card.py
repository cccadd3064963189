"""A card of a lesson: Python composes it of blocks, the browser draws them and sends back what was pressed.

A card is one of our own widgets, so that no key pressed in it reaches JupyterLab (where `b` adds a cell and `d d` deletes one), and so that
every text goes in as text, never as markup. The blocks are plain dicts; the functions below make them.
"""


import anywidget
import traitlets

from kit.coursework import this_notebook
from kit.storage import here
from kit.widgets.shared import script, sheet, told


class Card(anywidget.AnyWidget):
    """`draw()` gives the card's blocks as it is now; `presses` names a function for each button, from the card's values to a sentence."""

    _esm = script("cards/cards")
    _css = sheet("shared/page/look", "cards/cards")
    name = traitlets.Unicode().tag(sync=True)
    home = traitlets.Unicode().tag(sync=True)  # whose draft it is: what was typed here belongs to this notebook's file
    title = traitlets.Unicode().tag(sync=True)
    blocks = traitlets.List().tag(sync=True)
    reply = traitlets.Dict().tag(sync=True)

    def __init__(self, name, title, draw, **presses):
        self.draw = told(draw)
        self.presses = {press: told(answer) for press, answer in presses.items()}
        super().__init__(name=name, home=str(this_notebook() or here()), title=title)
        self.on_msg(self._pressed)
        self.redraw()

    def redraw(self, _change=None):
        """Compose the card anew; the browser changes only the blocks that differ."""
        drawn = self.draw()
        self.blocks = drawn if isinstance(drawn, list) else [text("fault", drawn, tone="fault")]

    def _pressed(self, _card, message, buffers):
        """Answer a press. A file that was handed over is among its values, as `data`."""
        given = {"data": bytes(buffers[0])} if buffers else {}
        sentence = self.presses[message["press"]](message["values"] | given)
        self.redraw()
        self.reply = {"to": message["number"], "text": sentence or ""}


def text(key, words, tone="plain", title=""):
    """A paragraph. Tones: plain, quiet, kept, feedback, fault. A `title` stands above it in bold."""
    return {"is": "text", "key": key, "text": words, "tone": tone, "title": title}


def choices(key, legend, options, chosen="", across=False):
    """Radio buttons under a question; `options` are (value, words), lettered a, b, c unless they stand side by side (`across`)."""
    return {"is": "choices", "key": key, "legend": legend, "options": [list(each) for each in options], "value": chosen, "across": across}


def area(key, label, value="", rows=2, live="", starters=()):
    """A box to write in. With `live`, that press is sent at every pause; `starters` are beginnings that a button puts into the box."""
    return {"is": "area", "key": key, "label": label, "value": value, "rows": rows, "live": live, "starters": list(starters)}


def buttons(key, *presses):
    """Buttons; each is (press, words). The first is the main one."""
    return {"is": "buttons", "key": key, "presses": [list(each) for each in presses]}


def step_link(key, step, words="Go to Step {step}"):
    """A button that takes the reader to the heading 'Step n …' of the notebook."""
    return {"is": "step", "key": key, "step": step, "text": words.format(step=step)}


def onwards(key, words):
    """The main button: it takes the reader to the next heading of the notebook."""
    return {"is": "step", "key": key, "step": 0, "text": words}


def beside(key, *pairs):
    """Texts side by side (one under the other where there is no room); each is (title, words)."""
    return {"is": "beside", "key": key, "pairs": [list(each) for each in pairs]}


def bullets(key, title, lines):
    """A short list under a title."""
    return {"is": "bullets", "key": key, "title": title, "lines": list(lines)}


def lettered(choices_):
    """(letter, words) for each of some texts: a, b, c, …"""
    return list(zip("abcdefgh", choices_))
