"""The ways in which a run comes to the page: a file or a table, a sheet filled in by eye, a run while it is being recorded."""

from pathlib import Path

import ipywidgets
import traitlets

from kit.coursework import keep_unchanged
from kit.intake import UNITS
from kit.live import growing_files, ports
from kit.records import csv_text
from kit.widgets.cards import buttons, choices, text
from kit.widgets.intake import BringIn, hand_sheet, RunCard
from kit.widgets.live import follow, follow_serial

SHEET, SPEEDS = "by-hand", [(each, each) for each in ("9600", "19200", "57600", "115200")]
NO_LOGGER = "No logger is plugged in, and no file beside this notebook was written to in the last day. Start the logger, then look again."
WHERE = "Listed are loggers at this computer's ports, and files beside this notebook. Let your logger write its file into this folder."


class Ways(traitlets.HasTraits):
    """Which way in is `open`, as a widget; None once a run has come in. A way that was opened stays as it is when another is looked at."""

    open = traitlets.Instance(ipywidgets.DOMWidget, allow_none=True)
    kinds = ("file", "hand", "live")

    def __init__(self, page):
        super().__init__()
        self._page, self._made = page, {}
        if page.own is None:
            self.turn("file")

    def turn(self, kind, _values=None):
        """Open this way in."""
        if kind not in self._made:
            self._made[kind] = {"file": file_way, "hand": hand_way, "live": live_way}[kind](self.take)
        self.open = self._made[kind]
        return ""

    def take(self, file, keywords):
        """A run has come in: the page goes over to it."""
        self._page.take(file, keywords)
        self._made, self.open = {}, None


def file_way(take):
    """A file that is chosen or dropped, or a table that is pasted."""
    view = BringIn()
    view.observe(lambda change: take(*change.new), "kept_run")
    return view


def hand_way(take):
    """A sheet to type readings into: one that was begun here, or a new one."""
    box, sheets = ipywidgets.VBox(), {}

    def draw():
        begun = [(path.name, f"Go on with {path.name}") for path in sorted(Path().glob(f"{SHEET}*.csv"))]
        new = [(unit, f"A new sheet in {words}") for unit, words in UNITS.items()]
        return [choices("sheet", "Which sheet?", [*begun, *new], begun[-1][0] if begun else "degC"), buttons("do", ("open", "Open this sheet"))]

    def open_(values):
        name = values.get("sheet") or "degC"
        sheets["open"] = hand_sheet(_free_sheet(), unit=name) if name in UNITS else hand_sheet(name, unit=_unit_of(name))
        box.children = (asking, sheets["open"], using)
        return ""

    def use(_values):
        run = sheets["open"].run  # a Fault says what has to be put right first
        take(sheets["open"].path.name, {})
        return f"{run.name} is open. Go on with the next step."

    asking = RunCard("own.sheet", "A run read by eye", draw, open=open_)
    using = RunCard("own.sheet.use", "When the last reading is typed", lambda: [buttons("do", ("use", "Use this run"))], use=use)
    box.children = (asking,)
    return box


def _free_sheet():
    """The name of a sheet that isn't there yet."""
    number = 1
    while Path(f"{SHEET}-{number}.csv").exists():
        number += 1
    return f"{SHEET}-{number}"


def _unit_of(name):
    """The unit in the first line of a sheet."""
    head = Path(name).read_text(encoding="utf-8").splitlines()[:1]
    return next((unit for unit in UNITS if unit in "".join(head)), "degC")


def live_way(take):
    """A logger that is still writing: its file here, or its port."""
    box, views = ipywidgets.VBox(), {}

    def draw():
        found = [*((f"port {port}", f"the logger at the port {port}") for port in ports()), *((file, f"the file {file}") for file in growing_files())]
        if not found:
            return [text("none", NO_LOGGER), buttons("do", ("look", "Look again"))]
        listed = choices("source", "Which logger?", found, found[0][0])
        speed = [choices("speed", "Speed of the port, in bits a second", SPEEDS, SPEEDS[0][0], across=True)] if ports() else []
        return [listed, *speed, text("where", WHERE, tone="quiet"), buttons("do", ("follow", "Follow it"), ("look", "Look again"))]

    def start(values):
        name = values["source"]
        port = name.removeprefix("port ")
        views["open"] = follow(name) if port == name else follow_serial(port, baud=int(values["speed"]))
        box.children = (asking, views["open"], using)
        return ""

    def use(_values):
        run = views["open"].run  # a Fault says what is still missing
        views["open"].close()
        path = keep_unchanged(f"{run.name}-recorded.csv", csv_text(run).encode())
        take(path.name, {})
        return ""

    asking = RunCard("own.logger", "A run that is still being recorded", draw, follow=start, look=lambda _: "")
    using = RunCard("own.logger.use", "When you have enough", lambda: [buttons("do", ("use", "Use what came so far"))], use=use)
    box.children = (asking,)
    return box
