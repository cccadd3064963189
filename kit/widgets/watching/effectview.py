"""The effect of the marks as they are now: a sentence, a dot with its bar, what it rests on and what to keep in mind."""

from math import isfinite

import traitlets
from anywidget import AnyWidget

from kit.records import NAMES
from kit.units import difference
from kit.widgets.shared import script, sheet
from kit.words import clock

LINE, NAMED = "paired_effect(run, marker.windows)", "Effect of the windows as they are now"


def watch(marker, parts=False):
    """A view that follows `marker` (from `mark_windows`). With `parts` also what each vessel did by itself: shared and extra."""
    return EffectView(marker, told_with_parts if parts else told_alone)


class Shown(AnyWidget):
    """A sentence with its bars, and what they rest on, as `shown`; `moving` while a new one is on its way."""

    _esm = script("watching/watching")
    _css = sheet("shared/page/look", "watching/watching")
    shown = traitlets.Dict().tag(sync=True)
    moving = traitlets.Bool(False).tag(sync=True)


class EffectView(Shown):
    """What the marker's windows give, live. Made by `watch`."""

    def __init__(self, marker, tell):
        self.marker, self._tell = marker, tell
        super().__init__(shown=self._now())
        marker.observe(self._follow, "answer")

    def _follow(self, change):
        """While the windows move, the last result is marked as old; when they rest, the new one takes its place."""
        with self.hold_sync():
            self.moving = not change.new["settled"]
            if not self.moving:
                self.shown = self._now()

    def _now(self):
        effect, amiss = self.marker.effect, self.marker.misplaced
        told = {**self._tell(effect), "first": amiss} if effect else {"sentence": self.marker.answer["sentence"]}
        return {**told, "name": NAMED} | ({"cautions": []} if effect and amiss else {})  # one thing at a time: first the windows


def told_alone(effect):
    """An `Effect` as plain words and numbers for the browser, without the two single changes."""
    warming = effect.warming
    return {
        "sentence": str(effect),
        "condition": effect.condition if isfinite(warming.value) else "",
        "bars": [bar("extra warming of the treated vessel", warming)] if isfinite(warming.value) else [],
        "picture": picture_in_words(warming),
        "verdict": effect.verdict,
        "reason": effect.reason,
        "cautions": [str(each) for each in effect.cautions],
        "rows": rows(effect),
        "line": LINE,
        "windows": f"marker.windows is now: {effect.windows}",
    }


def told_with_parts(effect):
    """The same with the two single changes, and how they make up the effect."""
    alone, treated, control = told_alone(effect), effect.treated_change, effect.control_change
    if not alone["bars"]:
        return alone
    changes = [("treated changed by", treated.text), ("control changed by", control.text)]
    whole, shared = (difference(each.value, 2) for each in (treated, control))
    left = f"The control shows what both share. What is left is the extra: {effect.warming.value_text}."
    return {
        **alone,
        "parts": f"Treated changed by {whole}, control by {shared}. {left}",
        "bars": [
            bar("treated: its whole change", treated, "treated"),
            bar("shared: the control changed by this too", control, "control"),
            bar("extra: what the control does not share", effect.warming),
        ],
        "picture": f"Three bars. Treated: {treated.text}. Shared with the control: {control.text}. Extra: {effect.warming.text}.",
        "rows": [*changes, *alone["rows"]],
    }


def bar(label, estimate, line="difference"):
    """One bar: from 0 as far as the estimate says, with the ends of its range (None where it is open): the numbers of its label, in its unit."""
    shown = estimate.shown
    ends = {end: value if isfinite(value := getattr(shown, end)) else None for end in ("low", "high")}
    return {"label": label, "line": line, "from": 0.0, "to": shown.value, "text": estimate.text, "unit": shown.unit, **ends}


def picture_in_words(warming):
    place = "reaches over" if warming.holds(0) else "stays clear of"
    return f"A dot at {warming.value_text} with a bar, {warming.range}. The bar {place} 0."


def rows(effect):
    """The numbers of the view as a table: (name, value) pairs of text."""
    warming, windows = effect.warming, effect.windows
    answer = [("extra warming", warming.value_text), (f"range at {100 * warming.level:g} %", warming.range)]
    spans = [(name, " to ".join(clock(60 * edge) for edge in getattr(windows, name))) for name in NAMES]
    return [*answer, ("verdict", effect.verdict), ("holds", effect.condition), *spans]
