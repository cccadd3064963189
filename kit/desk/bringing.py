"""The cards through which the class's files come in."""

from kit.widgets.cards import bullets, buttons, text
from kit.widgets.intake import file_choice, RunCard

HELP = "Choose or drop what your class handed in: hand-ins, loggers' files, or a zip of either. They are kept in the folder class, beside this page."
HINT = "As many files as you like, each up to {} MiB. Larger ones: copy them into the folder class yourself, then read it again."
ENDINGS = ".zip,.csv,.txt,.tsv,.dat,.log,.asc,.xlsx"
SAFE = "Nothing in a file is run, and no number in it is taken over: each is worked out anew from the readings."
ALL_READ = "Every file could be read."


def desk_card(desk, key, title, draw, **presses):
    """A card of the desk, drawn anew whenever the desk has changed."""
    card = RunCard(f"desk.{key}", title, draw, **presses)
    desk.observe(card.redraw, "turn")
    return card


def bring_card(desk):
    """Choose or drop files, or read the folder again."""

    def draw():
        trouble = [text("trouble", desk.trouble, tone="fault")] if desk.trouble else []
        here = [text("here", str(desk.collected), tone="kept")] if desk.collected.packages or desk.collected.runs or desk.collected.unread else []
        noticed = [bullets("noticed", "Noticed", desk.collected.remarks)] if desk.collected.remarks else []
        choice = file_choice("file", "The class's files", HINT, "file", accept=ENDINGS, several=True)
        return [text("help", HELP), *trouble, *here, *noticed, choice, buttons("do", ("again", "Read the folder again")), text("safe", SAFE, tone="quiet")]

    def hand_over(values):
        left = int(values.get("left", 0))
        desk.take(values["name"], values["data"], left)
        return f"{values['name']} is in the folder class. {desk.collected if not left else ''}".strip()

    def again(_values):
        desk.read()
        return str(desk.collected)

    return desk_card(desk, "bring", "The class's files", draw, file=hand_over, again=again)


def unread_card(desk):
    """A line for each file that could not be read, and for what was missing in a hand-in."""

    def draw():
        gaps = [f"{package.sender or package.name}: {fault}" for package in desk.collected.packages for fault in package.material.faults]
        unread = [bullets("unread", "Could not be read", map(str, desk.collected.unread))] if desk.collected.unread else [text("all", ALL_READ)]
        return [*unread, *([bullets("gaps", "Missing in a hand-in", gaps)] if gaps else [])]

    return desk_card(desk, "unread", "What could not be read", draw)
