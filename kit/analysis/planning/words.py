"""A plan in words: its sentence, its timetable, why it is so, and how it was found."""

import numpy as np

from kit.estimate import amount
from kit.settings import class_settings
from kit.units import about, difference_in, unit
from kit.words import counted

SETTLE_MIN = 1.0


def plan_sentence(plan):
    """What to do and what to expect."""
    wish = f"± {about(plan.half_width_c)}"
    expected = f"± {about(plan.chosen.half_width_c)}"
    if plan.reachable:
        return f"Plan {_runs(plan)}: 4 of 5 such plans get a range of at most {expected}, within the {wish} that you want."
    reached = "close to it" if expected == wish else f"{expected} or less"
    return f"{wish} is out of reach. {_runs(plan)} would come to {reached} in 4 of 5 such plans."


def _runs(plan):
    each, swapped = " each" if plan.runs > 1 else "", ", half of them with swapped vessels" if plan.chosen.swap else ""
    return f"{counted(plan.runs, 'run')} of {plan.minutes:g} min{each}{swapped}"


def schedule_of(option):
    """(minute, what to do), from the lamp's start."""
    timing = option.timing
    change = max(timing.quiet + SETTLE_MIN, class_settings()["gas_at_min"])
    response = change + timing.watch - timing.baseline / 2
    return (
        (0.0, "Lamp on, logger on. From here on nobody moves lamp, vessels or thermometers. Keep all that the logger records."),
        (change - timing.baseline - SETTLE_MIN, "Is the difference steady? Ask check_steady. If not, wait."),
        (change - timing.baseline, "Baseline: touch nothing."),
        (change, "Lead the gas into the treated vessel, and air through a like tube into the control, for about a minute."),
        (response, "Response window: touch nothing."),
        (response + timing.baseline, "Save the record. Lamp off, let it cool. Air the room."),
    )


def why_plan(plan):
    """What decides the number of runs, or what stands in the way of the wish."""
    chosen = plan.chosen
    single = next(each for each in plan.options if each.runs == 1 and each.timing == chosen.timing)
    alone = f"One such run reaches ± {about(single.half_width_c)}"
    if chosen.runs == 1:
        return f"{alone}, so no repeat is needed. A repeat still shows whether it happens again."
    if not plan.reachable:
        return (
            f"{alone}; more runs help slowly, and runs differ by about {about(plan.spread_c)}. Ask for less, or find out why they "
            "differ."
        )
    swap = " Swapped vessels take out the drift that place and lamp bring." if chosen.swap else ""
    return f"{alone}. Chance shrinks with the number of runs, drift that all share does not.{swap}"


def plan_explained(plan):
    """The account of a `Plan`, one thought a line."""
    return "\n".join((_chance(plan), _rehearsed(plan), _quiet(plan), _repeats(plan), _telling(plan)))


def _chance(plan):
    wander = plan.wander
    return (
        f"Taken for chance: the difference wanders by {about(wander.sd_c)}, readings {amount(wander.correlation_s)} s apart still "
        "agree, "
        f"the display moves in steps of {about(wander.display_c)}, one reading every {wander.step_s:g} s."
    )


def _rehearsed(plan):
    alone = plan.chosen.alone
    return (
        f"Sixty such runs were rehearsed, half drifting up and half down by {difference_in(plan.drift_c_per_min):.2g} {unit()} a minute. One run brings "
        f"{about(float(np.median(alone.error)))} of chance (standard uncertainty), and up to {about(alone.allowance)} have to be allowed for drift."
    )


def _quiet(plan):
    most = max(each.timing.quiet for each in plan.options)
    short, long = (next(each for each in plan.options if each.runs == 1 and each.timing.quiet == quiet).half_width_c for quiet in (1.0, most))
    ended = "ten" if most == 10 else f"{most:g}"
    return f"With one quiet minute before the gas, a run reaches ± {about(short)}; with {ended}, ± {about(long)}. So keep the whole record."


def _repeats(plan):
    if plan.runs == 1:
        return plan.reason
    return (
        f"Beyond their own chance runs are taken to differ by {about(plan.spread_c)}. With {counted(plan.runs, 'run')} that makes "
        "about "
        f"± {about(plan.chosen.half_width_c)}. {plan.reason}"
    )


def _telling(plan):
    size = 2 * plan.chosen.half_width_c
    return f"An extra warming of {about(size)} would be told from none {how_often(float(plan.chance_of_telling(size)))}."


def how_often(chance):
    """A chance in words; never as if it were sure."""
    if chance > 0.99:
        return "nearly always"
    if chance < 0.01:
        return "hardly ever"
    return f"in about {100 * chance:.0f} of 100 such plans"
