"""The windows and what they give: suggested or set by hand, then the effect, kept when the learner says so."""

from functools import lru_cache

from kit.analysis.effect import suggest_windows
from kit.widgets.cards import buttons, text
from kit.widgets.marker import starting_windows
from kit.widgets.ownrun.step import in_code, Step
from kit.widgets.watching import watch

PLACE = "Put the three windows where they belong. Or let the kit suggest them, then check each one by eye."
UNPLACED = "Nobody has placed the windows yet. Place them in Step 5, then keep the effect."
EFFECT_CODE = in_code("paired_effect", "effect = paired_effect(run, windows)", "effect")
MOVED = "Your windows have moved since. What is kept still comes from: {windows}"
NOW_OTHER = "This effect was kept as: {sentence} The readings it rests on have changed since. Keep it anew."


def mark_step(page):
    """The window marker, with a button that suggests where the windows could go."""

    def draw():
        return [text("help", PLACE), buttons("do", ("suggest", "Suggest the windows"))]

    def suggest(_values):
        page.marker.windows = suggest_windows(page.run)
        return "Suggested. Does each window stand where it should? Move it if not."

    def code():
        return in_code("Windows", windows_in_code(page.marker.windows))

    return Step(page, "mark", "Mark the windows", draw, needs="run", below=lambda: page.marker, code=code, suggest=suggest)


def windows_in_code(windows, name="windows"):
    """The line that makes these windows, in seconds."""
    return f"{name} = Windows.of_seconds(({', '.join(f'{edge:.10g}' for edge in windows.seconds)}))"


def effect_step(page):
    """The effect of the windows as they are now, and the button that keeps it."""

    def draw():
        kept = page.kept("effect", "kept")
        said = [text("kept", str(page.effect), tone="kept", title="Kept")] if page.effect else []
        news = _news(page, kept)
        return [*said, *news, *([buttons("do", ("keep", "Keep this effect"))] if news or not said else [])]

    def keep(_values):
        if page.marker.windows == starting_windows(page.run):
            return UNPLACED
        if page.marker.effect is None:
            return page.marker.answer.get("sentence", UNPLACED)
        windows, sentence = page.marker.windows, str(page.marker.effect)
        page.book.add("effect", "kept", windows=[windows.baseline, windows.perturbation, windows.response], sentence=sentence)
        return "Kept. The next steps work with it."

    return Step(page, "effect", "The effect", draw, needs="run", below=lambda: _view(page.marker), code=lambda: EFFECT_CODE, keep=keep)


def _news(page, kept):
    """What has changed since the effect was kept."""
    if page.effect is None:
        return []
    moved = [text("moved", MOVED.format(windows=page.effect.windows), tone="quiet")] if page.marker.windows != page.effect.windows else []
    other = [text("other", NOW_OTHER.format(sentence=kept["sentence"]), tone="fault")] if kept["sentence"] != str(page.effect) else []
    return [*moved, *other]


@lru_cache(maxsize=1)
def _view(marker):
    return watch(marker)
