"""What could have caused the kept effect: from its size alone, or from several of the learner's runs weighed together."""

from functools import lru_cache
from math import isfinite

from kit.analysis.causes import possible_causes, RUNS, weigh_causes
from kit.coursework import KIND_CARD, KIND_SAID, kept_windows, own_runs, run_kind
from kit.widgets.cards import buttons, choices, text
from kit.widgets.ownrun.step import in_code, Step
from kit.widgets.ownrun.using import effect_in_code, effect_kept

SINGLE = "One run can't settle what warmed the vessel. It says which causes could be large enough, and which run to make next."
SEVERAL = "Your runs of this bench are weighed together: {kinds}. Of two alike the one you opened last counts."
ASKED, KEEP = "What was done in this run?", "Keep this"
NONE_SAID = "Choose what was done first."


def causes_step(page):
    """What was done in this run; then the causes, by size, or weighed with the other runs of which that was said."""

    def result():
        more = _beside(page)
        effects = {_kind(page): page.effect, **{kind: effect_kept(own) for kind, own in more.items()}}
        return _weighed(tuple(effects.items())) if more else _causes(page.effect)

    def draw():
        more = _beside(page)
        said = text("single", SEVERAL.format(kinds=", ".join([_kind(page), *more])) if more else SINGLE)
        asked = choices("done", ASKED, list(RUNS.items()), _kind(page))
        return [asked, buttons("do", ("say", KEEP)), said, text("causes", str(result()), tone="kept")]

    def code():
        more = _beside(page)
        if not more:
            return in_code("possible_causes", "possible_causes(effect)")
        lines = [line for kind, own in more.items() for line in effect_in_code(own, kind)]
        weighed = ", ".join([f'"{_kind(page)}": effect', *(f'"{kind}": {kind}' for kind in more)])
        return in_code("read_run, weigh_causes, Windows", *lines, f"weigh_causes({{{weighed}}})")

    def say(values):
        if not values.get("done"):
            return NONE_SAID
        page.book.add(KIND_CARD, KIND_SAID, done=values["done"])
        return ""

    return Step(page, "causes", "What could have caused it", draw, needs="effect", below=result, code=code, say=say)


def _kind(page):
    return run_kind(page.book.kept)


def _beside(page):
    """{kind: OwnRun} of the other runs to weigh this one with: those with a kept range of which it was said what was done, the CO2 run among
    them all; none as long as it wasn't said of this one."""
    mine, found = _kind(page), {}
    for own in own_runs():
        kind = run_kind(own.kept)
        if kind in RUNS and kind != mine and own.path != page.own.path and kept_windows(own) and _has_range(effect_kept(own)):
            found.setdefault(kind, own)
    return found if mine and "gas" in (mine, *found) and _has_range(page.effect) else {}


def _has_range(effect):
    return isfinite(effect.warming.low) and isfinite(effect.warming.high)


@lru_cache(maxsize=1)
def _causes(effect):
    return possible_causes(effect)


@lru_cache(maxsize=1)
def _weighed(effects):
    return weigh_causes(dict(effects))
