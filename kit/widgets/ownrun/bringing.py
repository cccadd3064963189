"""The first steps: open one of one's own runs again, or bring one in."""

from functools import lru_cache, partial

from kit.coursework import own_runs
from kit.intake import code_for
from kit.widgets.cards import bullets, buttons, choices, text
from kit.widgets.intake import still
from kit.widgets.ownrun.step import in_code, Step
from kit.widgets.ownrun.ways import Ways

WAYS = (("file", "A file or a table"), ("hand", "Read by eye"), ("live", "Still being recorded"))
NO_RUNS = "You have no run here yet. Bring one in below, in Step 2. From then on it stands in this list."


def runs_step(page):
    """The list of the learner's runs."""

    def draw():
        trouble = [text("trouble", page.trouble, tone="fault")] if page.trouble else []
        runs = own_runs()
        if not runs:
            return [*trouble, text("none", NO_RUNS)]
        options = [(own.file, f"{own.file}, open last on {own.opened[:10]} at {own.opened[11:16]}") for own in runs]
        again = choices("run", "Open one again:", options, page.own.file if page.own else "")
        return [*trouble, *_so_far(page), again, buttons("do", ("open", "Open this run"))]

    def open_(values):
        own = next((each for each in own_runs() if each.file == values.get("run")), None)
        if own is None:
            return "Choose one of your runs first."
        page.open(own)
        return page.trouble or f"{own.file} is open, as you left it."

    return Step(page, "runs", "Your runs", draw, open=open_)


def _so_far(page):
    """Which run is open, and what is done with it."""
    if page.run is None:
        return []
    done = [words for words, is_done in _milestones(page) if is_done]
    words = f"{page.run}\nDone: {', '.join(['brought in', *done])}."
    return [text("open", words, tone="kept", title="Open now")]


def _milestones(page):
    asked = [("looked whether it is steady", "steady", "asked"), ("effect kept", "effect", "kept"), ("compared", "compare", "asked")]
    later = [("added to the class", "class", "added"), ("note written", "note", "note")]
    return [(words, page.kept(card, kind)) for words, card, kind in asked + later]


def bring_step(page):
    """The run that is open, and the ways to bring another one in; the way that is chosen stands below the card."""
    ways = Ways(page)

    def draw():
        ask = text("ask", "How does your next run come in?" if page.run else "How does your run come in?", tone="stem")
        return [*(_brought(page) if page.run else []), ask, buttons("ways", *WAYS)]

    def code():
        return in_code("read_run", code_for(page.own.file, page.own.keywords)) if page.run else ""

    turns = {way: partial(ways.turn, way) for way in ways.kinds}
    step = Step(page, "bring", "Bring a run in", draw, below=lambda: ways.open, code=code, **turns)
    ways.observe(step.renew, "open")
    return step


def _brought(page):
    """The run with its chart, and how it was read."""
    return [
        text("here", str(page.run), tone="kept"),
        _chart(page.run),
        bullets("understood", "Read so", list(page.run.remarks)),
    ]


@lru_cache(maxsize=2)
def _chart(run):
    return still("chart", run)
