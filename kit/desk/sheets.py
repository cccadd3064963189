"""The card that prints the sheets for teachers."""

from kit.desk.bringing import desk_card
from kit.sheets import sheet_titles, write_sheets
from kit.widgets.cards import buttons, choices, text

HELP = "Each sheet is a page to print, made of the class's settings as they are now. Set vessel, lamp, gas and timing on the settings page first."
OWN = "To change a sheet for your class, put a copy of its text from lessons/teacher/sheets into a folder sheets beside this page."
MADE = "{} written. Open it in the file list on the left, in the folder pages, then print it."
CHOOSE = "Choose a sheet first."


def sheets_card(desk):
    """Choose a sheet and make its page, or make all of them."""

    def draw():
        which = choices("sheet", "Which sheet?", list(sheet_titles().items()))
        return [text("help", HELP), which, buttons("do", ("one", "Make this sheet"), ("every", "Make all sheets")), text("own", OWN, tone="quiet")]

    def one(values):
        return _made([values["sheet"]]) if values.get("sheet") else CHOOSE

    return desk_card(desk, "sheets", "Sheets to print", draw, one=one, every=lambda _values: _made(sheet_titles()))


def _made(names):
    paths = write_sheets(names)
    return MADE.format(f"{paths[0].as_posix()} is" if len(paths) == 1 else f"{len(paths)} pages are")
