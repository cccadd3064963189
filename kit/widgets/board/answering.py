"""What a board shows of a class: its rows in order, its bars, its sentence."""

from dataclasses import replace
from functools import lru_cache
from math import inf, isfinite

from kit.units import difference, difference_in, unit
from kit.widgets.board.members import APART, JOINED
from kit.widgets.shared import line, rows
from kit.words import counted, listed

NO_REASON = "no reason yet"
ONE_MORE = "The bar for one more group is for a run with its vessels as usual: it need not lie round this mean."
UNKNOWN = {"time": "no time", "mouth": "not written"}
ORDERS = {"name": "as they came", "size": "by size", "time": "by time of day", "side": "by side", "mouth": "by mouth"}
MARGIN_C, ROOM = 0.08, 0.1
MOUTHS_CM = (1, 40)


def answer_of(class_, *, left_out, order="name", opened="", groups=None, pairs=APART, truth="closed", turned=(), mouths=None):
    """The board of the first `groups` of a class, some of them `left_out` ({name: why})."""
    class_ = class_.turned(tuple(turned))
    members = tuple(_with_mouth(each, (mouths or {}).get(each.name, "")) for each in class_.members[: groups and round(groups)])
    names = tuple(each.name for each in members)
    counting = tuple(name for name in names if name not in left_out)
    board = Board(class_, members, {name: why for name, why in left_out.items() if name in names}, pairs, class_.truth if truth == "open" else None)
    whole, kept = class_.effect(names, pairs), class_.effect(counting, pairs)
    return {
        "sentence": board.sentence(whole, kept),
        "numbers": board.numbers(kept),
        "picture": board.picture(kept),
        "table": rows(f"The class {class_.name}", ["group", "warmed more by", "left out because"], board.cells(whole, kept)),
        "rows": board.rows(whole, kept, order),
        "means": board.means(whole, kept),
        "span": board.span(),
        "unit": unit(),
        "truth": board.truth and {"at": difference_in(board.truth), "words": f"the truth: {difference(board.truth, 2)}"},
        "opened": opened_of(class_, opened, pairs) | {"mouth": (mouths or {}).get(opened, "")} if opened in names else None,
    }


class Board:
    """One state of a board."""

    def __init__(self, class_, members, left_out, pairs, truth):
        self.class_, self.members, self.left_out, self.pairs, self.truth = class_, members, left_out, pairs, truth
        self.bars = {each.name: each.pooled(pairs).warming for each in members}

    def sentence(self, whole, kept):
        """The class's answer in words: with those left out, and without."""
        if kept is None:
            return "Nobody is left. Give one group its tick again."
        said = [f"{counted(len(kept.shares), 'group')}: the treated vessels warmed more by {_text(kept.mean)}.", self.held(kept)]
        if self.left_out:
            said.append(f"With {listed(self.left_out)} it would be {_text(whole.mean)}.")
        said += [self.beside_truth(kept), ONE_MORE if self.pairs == JOINED and isfinite(kept.next_group.high) else ""]
        missing = [name for name, why in self.left_out.items() if not why.strip()]
        numberless = listed([name for name, _ in self.class_.left_out]) if self.class_.left_out else ""
        asked = f"Write why {listed(missing)} is left out." if missing else ""
        return " ".join(filter(None, [*said, f"Without a number: {numberless}; the table says why." if numberless else "", asked]))

    def held(self, kept):
        """How many of the bars that count hold the class mean."""
        held = self.count_held(kept)
        return f"{held} of {counted(len(kept.shares), 'bar')} {'holds' if held == 1 else 'hold'} this mean."

    def count_held(self, kept):
        """Their number."""
        return sum(self.bars[share.name].holds(kept.mean.value) for share in kept.shares)

    def beside_truth(self, kept):
        """Where the open truth lies."""
        if self.truth is None or not isfinite(kept.mean.high):
            return ""
        return f"The truth, {difference(self.truth, 2)}, lies {'inside' if kept.mean.holds(self.truth) else 'outside'} the class's range."

    def numbers(self, kept):
        """What stands in large figures."""
        if kept is None:
            return []
        off = [("off the truth by", difference(abs(kept.mean.value - self.truth), 2))] if self.truth else []
        return [("the class", _value(kept.mean)), ("its range", _range(kept.mean)), ("one more group", _range(kept.next_group)), *off]

    def picture(self, kept):
        """The board for those who listen."""
        out = f" {listed(self.left_out)} {'is' if len(self.left_out) == 1 else 'are'} left out." if self.left_out else ""
        mean = f" The class: {_text(kept.mean)}. One more group: {_range(kept.next_group)}." if kept else ""
        return f"A bar for each of {counted(len(self.members), 'group')}.{out}{mean}"

    def cells(self, whole, kept):
        """The board as a table."""
        groups = [[name, bar.text, self._why(name)] for name, bar in self.bars.items()]
        means = [["the class", _text(kept.mean), ""], ["one more group", _range(kept.next_group), ""]] if kept else []
        everybody = [["the class with everybody", _text(whole.mean), ""]] if self.left_out else []
        return groups + means + everybody + [[name, "no number", why] for name, why in self.class_.left_out]

    def _why(self, name):
        return (self.left_out[name].strip() or NO_REASON) if name in self.left_out else ""

    def rows(self, whole, kept, order):
        """One dict a group, in the order asked for."""
        far = {share.name for share in whole.shares if share.suspect}
        return [self._row(each, each.name in far, kept, order) for each in sorted(self.members, key=lambda each: self._key(each, order))]

    def _row(self, member, far, kept, order):
        bar, out = self.bars[member.name], member.name in self.left_out
        shown = {
            "name": member.name,
            "fact": self._fact(member, order),
            **_ends(bar),
            "words": _text(bar),
            "out": out,
            "why": self.left_out.get(member.name, ""),
            "holds": bool(kept) and bar.holds(kept.mean.value),
            "far": far,
        }
        pair = member.runs if self.pairs == JOINED and len(member.runs) > 1 else ()
        return shown | {"runs": [{"at": difference_in(run.value), "turned": run.side < 0} for run in pair], "turned": member.runs[0].side < 0}

    def _key(self, member, order):
        if order == "size":
            return self.bars[member.name].value
        return _side(member) if order == "side" else member.facts.get(order, inf if order in UNKNOWN else 0)

    def _fact(self, member, order):
        if order == "side":
            return "both" if abs(_side(member)) < 1 else "swapped" if _side(member) < 0 else "usual"
        told = {"time": lambda minutes: "{:02d}:{:02d}".format(*divmod(round(minutes), 60)), "mouth": lambda wide: f"{wide:g} cm"}
        return told[order](member.facts[order]) if order in member.facts else UNKNOWN.get(order, "")

    def means(self, whole, kept):
        """The bars of the class as a whole."""
        if kept is None:
            return []
        named = [("class", f"class: {counted(len(kept.shares), 'group')}", kept.mean)]
        if self.left_out:
            named.append(("whole", "with everybody", whole.mean))
        named.append(("next", "one more group", kept.next_group))
        return [{"key": key, "name": name, **_ends(each), "words": _range(each) if key == "next" else _text(each)} for key, name, each in named]

    def span(self):
        """[lowest, highest] of the board: all bars and runs of the class that count, whoever has joined yet."""
        counting = [each for each in self.class_.members if each.name not in self.left_out] or self.members
        bars = [each.pooled(pairs).warming for each in counting for pairs in (APART, JOINED)]
        ends = [*(end for bar in bars for end in (bar.low, bar.high)), *(run.value for each in counting for run in each.runs)]
        known = [end for end in ends if isfinite(end)]
        return [difference_in(min(known) - MARGIN_C), difference_in(max(known) + MARGIN_C)]


def opened_of(class_, name, pairs):
    """The runs of one group: how treated − control went, and what the group noted."""
    member = next(each for each in class_.members if each.name == name)
    runs = [{"name": run.name, "turned": run.side < 0} for run in member.runs]
    return {"name": name, "note": member.note, "runs": runs, **_course(class_, tuple((run.name, run.side < 0) for run in member.counted(pairs)), unit())}


@lru_cache(maxsize=8)
def _course(class_, named, unit_):
    """How treated − control went in some runs, ((name, was it swapped?), …)."""
    runs = [class_.run_of(name) for name, _ in named]
    names = [run.name for run in runs] if len(runs) == 1 else ["swapped" if turned else "usual" for _, turned in named]
    drawn = zip(runs, ("difference", "control", "treated"), names)
    lines = [line(run.minutes, difference_in(run.difference().to_numpy()), look, name) for run, look, name in drawn]
    min(lines, key=lambda each: each["y"][-1])["below"] = len(lines) > 1
    low, high = min(min(each["y"]) for each in lines), max(max(each["y"]) for each in lines)
    ends = [f"{run.name}: {each['y'][0]:.2f} {unit_} at first, {each['y'][-1]:.2f} {unit_} at the end" for run, each in zip(runs, lines)]
    words = f"Treated minus control over time. {'; '.join(ends)}."
    return {"words": words, "lines": lines, "span": [low - ROOM, high + ROOM], "across": [0, float(max(run.minutes[-1] for run in runs))]}


def _with_mouth(member, written):
    """The member with the width of its mouth, as far as what was written is one."""
    try:
        wide_cm = float(written.replace(",", ".").removesuffix("cm"))
    except ValueError:
        return member
    return replace(member, facts={**member.facts, "mouth": wide_cm}) if MOUTHS_CM[0] <= wide_cm <= MOUTHS_CM[1] else member


def _side(member):
    return sum(run.side for run in member.runs) / len(member.runs)


def _ends(estimate):
    return {"value": _open(estimate.value), "low": _open(estimate.low), "high": _open(estimate.high)}


def _open(number):
    """A number in the class's unit, or None where there is none."""
    return difference_in(number) if isfinite(number) else None


def _value(estimate):
    return estimate.value_text if isfinite(estimate.value) else "not determined"


def _range(estimate):
    return estimate.range if isfinite(estimate.high) else "no range yet"


def _text(estimate):
    """'1.56 (1.51 to 1.60) °C'"""
    if not isfinite(estimate.high):
        return f"{_value(estimate)} ({_range(estimate)})"
    here = f" {unit()}"
    return f"{_value(estimate).removesuffix(here)} ({_range(estimate).removesuffix(here)}){here}"
