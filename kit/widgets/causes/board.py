"""The board: what each cause can still be, as bars, and which of them the last run has moved."""

from kit.analysis.causes import BY_LETTER
from kit.estimate import Range
from kit.words import listed

MOVED_C = 0.05  # a bar's end that moves less does not show
STANDING = {"needed": "needed", "excluded as the only cause": "too small", "not needed": "may be nothing", "open": "open"}


def board_of(found, before, chips="", last=None):
    """The block of `WeighedCauses`, with the bars as they were when `before` runs were in, `chips` on causes, `last` of the last run."""
    gas = found.runs[0].effect
    value = {
        "last": last or {},
        "bars": bars_of(found, before),
        "gas": {"value": gas.shown.value, "text": f"gas run {gas.value_text}"},
        "weighed": str(found),
    }
    return {"is": "board", "key": "board", "chips": chips, "value": value}


def ranges_of(rows):
    """The block of what runs showed, one of `effect_row` each."""
    return {"is": "ranges", "key": "shown", "title": "What the runs showed", "value": rows}


def effect_row(key, name, warming):
    """A row for what a run showed: its `warming`, an Estimate; drawn in the class's unit."""
    shown = warming.shown
    ends = {"low": shown.low, "high": shown.high, "value": shown.value, "unit": shown.unit}
    return {"key": key, "name": name, "text": f"{warming.value_text} ({warming.range})", **ends, "before": []}


def bars_of(found, before):
    """A row for each cause: its words, its range now, in the class's unit, and where that differs, the range when `before` runs were in."""
    earlier = found.history[before - 1][1]
    return [_bar(cause, Range(*earlier[cause.letter], "°C"), cause.letter in moved(found, before)) for cause in found.causes]


def _bar(cause, earlier, has_moved):
    now = Range(cause.least, cause.most, "°C")
    was = f", before {earlier}" if has_moved else ""
    shown, past = now.shown, earlier.shown
    ends = {"low": shown.low, "high": shown.high, "before": [past.low, past.high] if has_moved else [], "unit": shown.unit}
    return {"key": cause.letter, "name": cause.rival.name, "text": f"{now}{was}: {STANDING[cause.word]}", **ends}


def moved(found, before):
    """Letters of the causes whose range has changed since `before` runs were in."""
    earlier, now = found.history[before - 1][1], found.history[-1][1]
    return [letter for letter in now if max(abs(one - other) for one, other in zip(earlier[letter], now[letter])) > MOVED_C]


def moving_sentence(found, before):
    """Which bars have moved since `before` runs were in, and what that means for those that did not."""
    letters = moved(found, before)
    if not letters:
        return "No bar moved: every size that fitted before still fits."
    told = listed(str(BY_LETTER[letter]) for letter in letters)
    return f"Moved: {told}. The others are as open as before."
