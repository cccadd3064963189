"""What to keep in mind about an effect: each caution one small rule, with the number that set it off."""

from math import isfinite

import numpy as np

from kit.analysis.effect.words import jump_told
from kit.estimate import amount, rounded
from kit.faults import Caution
from kit.statistics import coverage_factor, display_step, within
from kit.units import about, stated
from kit.words import counted

SHORT_BASELINE_MIN, LONG_RECORD_MIN, EARLIER_MIN = 0.75, 5, 5
FEW_READINGS, MANY_READINGS, MOVED_C = 5, 10, 0.3
# A slow swing of a room moves the difference by less than this (°C): common practice, no source.
SWING_C = 0.3
STILL_WARMING_C_PER_MIN, LOOK_BACK_MIN = 0.2, 2
FLOW_MARGIN_MIN, GAS_SEEN_PPM = 0.5, 500


def effect_cautions(effect, record):
    """All cautions that an `Effect` of a `Record` calls for."""
    rules = (
        baseline_short(effect), noise_slow(effect), few_readings(record), readings_missing(record), drift_assumed(effect), drift_seen(effect),
        bent(effect), slow_swing(effect), jumped(effect), not_steady(effect, record), record_short(effect), gas_flowing(effect),
        display_coarse(effect), still_shown(effect, record), control_moved(effect, record), range_wide(effect),
    )  # fmt: skip
    return tuple(caution for caution in rules if caution)


def baseline_short(effect):
    minutes = np.ptp(effect.windows.baseline)
    if minutes < SHORT_BASELINE_MIN:
        return Caution("baseline-short", f"The baseline lasts {rounded(60 * minutes, 0)} s. Mark at least a minute of quiet before the change.")


def noise_slow(effect):
    noise, seconds = effect.noise, 60 * np.ptp(effect.windows.baseline)
    if noise and noise.correlation_s > seconds:
        text = f"Readings {amount(noise.correlation_s)} s apart still agree by chance, longer than the baseline lasts. A longer baseline helps."
        return Caution("noise-slow", text)


def few_readings(record):
    held = {name: window.stop - window.start for name, window in _windows(record).items()}
    name = min(held, key=held.get)
    if held[name] < FEW_READINGS:
        return Caution("few-readings", f"The {name} holds {counted(held[name], 'reading')}. Read more often, or make the window wider.")


def readings_missing(record):
    if record.missing:
        return Caution("readings-missing", f"{counted(record.missing, 'time')} left out: one of the vessels has no reading there.")


def drift_assumed(effect):
    drift = effect.drift
    if drift and not drift.measured:
        few = drift.seen_min < EARLIER_MIN
        why = f"only {amount(drift.seen_min)} min come before the change" if few else "the readings scatter too much, or their display is too coarse"
        text = f"The record can't show so small a drift, as {why}. The range counts on the tolerance of {stated(drift.bound)} a minute."
        return Caution("drift-assumed", text)


def drift_seen(effect):
    """The drift before the change is surely more than the tolerance."""
    drift, tolerance = effect.drift, effect.question.tolerance_c_per_min
    if drift and isfinite(drift.slope.value) and min(abs(drift.slope.low), abs(drift.slope.high)) > tolerance and not drift.slope.holds(0):
        text = f"The difference already drifted by {about(drift.slope.value)} a minute before the change. The range allows for it."
        return Caution("drift-in-baseline", text)


def bent(effect):
    """The difference ran no straight line before the change."""
    drift = effect.drift
    if drift and drift.bent:
        text = (
            f"The difference wandered by {about(drift.swing_c)} in the {amount(drift.seen_min)} min before the change, not in a straight line; "
            "a slow cycle of the room looks so. The range allows for as much again."
        )
        return Caution("bent-before", text)


def slow_swing(effect):
    """Nothing before the change could have shown a slow swing of the room, and the effect is of the size of one."""
    drift = effect.drift
    if drift and drift.seen_min < EARLIER_MIN and abs(effect.warming.value) < SWING_C:
        text = "One run can't tell a slow swing of the room from so small a warming. Repeat, with the roles of the vessels swapped."
        return Caution("slow-swing", text)


def jumped(effect):
    if effect.jump:
        return Caution("jump", jump_told(effect.jump))


def still_shown(effect, record):
    """A window of many readings shows one value, and nothing tells whether the probe is stuck."""
    for name, window in _windows(record).items():
        for vessel, readings in zip(("treated", "control"), record.vessels[:, window]):
            if effect.noise and len(readings) >= MANY_READINGS and np.ptp(readings) == 0:
                text = (
                    f"In the {name} the {vessel} thermometer shows one value. A coarse display does that, and a stuck probe, too: "
                    "warm it with a finger to see."
                )
                return Caution("one-value", text)


def not_steady(effect, record):
    """Both vessels still warm up quickly when the change comes."""
    end_s = 60 * effect.windows.perturbation[0]
    recent = slice(*within(record.seconds, end_s - 60 * LOOK_BACK_MIN, end_s))
    minutes = record.seconds[recent] / 60
    if len(minutes) < 2:
        return None
    centred = minutes - minutes.mean()
    control = record.vessels[1]
    slope = centred @ control[recent] / (centred @ centred)
    if abs(slope) > STILL_WARMING_C_PER_MIN and np.ptp(control[recent]) > 1.5 * display_step(control):  # one step of a coarse display is no course
        text = f"The control still changed by {about(slope)} a minute when the change came. Let both vessels settle for longer."
        return Caution("not-steady", text)


def record_short(effect):
    minutes = effect.windows.response[1] - effect.windows.perturbation[0]
    if minutes < LONG_RECORD_MIN:
        text = f"The record is used to {amount(minutes)} min after the change. Its noise is better known from {LONG_RECORD_MIN} min or more."
        return Caution("record-short", text)


def gas_flowing(effect):
    windows = effect.windows
    start, end = _gas_flow(effect.run.readings) or (windows.perturbation[0], windows.perturbation[1] + FLOW_MARGIN_MIN)
    if start < windows.baseline[1] - 1e-6:
        return Caution("gas-in-baseline", f"Gas was already coming in at minute {rounded(start, 1)}. End the baseline before that.")
    if end > windows.response[0] + 1e-6:
        text = f"The response begins at minute {rounded(windows.response[0], 1)}, while the gas may still be flowing. Begin it later."
        return Caution("gas-in-response", text)


def display_coarse(effect):
    if effect.noise is None:
        return None
    shown, wide = coverage_factor(effect.question.level, effect.noise.dof) * effect.noise.display_c, effect.warming.half_width
    if shown > wide / 2:
        text = f"The display's step decides this range: {about(shown)} of it. Use a finer display, or several runs."
        return Caution("display-coarse", text)


def control_moved(effect, record):
    before, after = (record.vessels[1, window].mean() for window in _windows(record).values())
    if abs(after - before) > max(abs(effect.warming.value) / 2, MOVED_C):
        text = f"The control itself changed by {about(after - before)}. The effect counts on the lamp having done the same in both vessels."
        return Caution("control-moved", text)


def range_wide(effect):
    if effect.verdict != "cannot tell" and effect.warming.half_width > abs(effect.warming.value) / 2:
        text = f"The range reaches {about(effect.warming.half_width)} to each side, more than half the effect. Its size is hardly known."
        return Caution("range-wide", text)


def _windows(record):
    return {"baseline": record.layout.baseline, "response": record.layout.response}


def _gas_flow(readings):
    """Minutes between which the gas probe rises, from a tenth to nineteen twentieths of the way; None without a probe or a rise."""
    if "gas_ppm" not in readings:
        return None
    gas, minutes = readings["gas_ppm"].to_numpy(float), readings.index.to_numpy(float) / 60
    seen = np.isfinite(gas)
    gas, minutes = gas[seen], minutes[seen]
    if not len(gas) or gas.max() - gas[0] < GAS_SEEN_PPM:
        return None
    return tuple(minutes[np.argmax(gas > gas[0] + share * (gas.max() - gas[0]))] for share in (0.1, 0.95))
