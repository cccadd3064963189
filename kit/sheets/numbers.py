"""Every number that a sheet may name in braces, worked out when it is asked for: of the class's own bench, and of the lessons."""

from kit.analysis.basis import safety
from kit.analysis.effect import paired_effect, suggest_windows
from kit.analysis.planning import bench_card, gas_dose
from kit.bench import expected_pair
from kit.coursework import read_lesson
from kit.estimate import rounded
from kit.examples import example_run
from kit.physics import dose
from kit.records import Windows
from kit.settings import class_settings, LINES
from kit.sheets.period import period_of
from kit.units import span, stated
from kit.widgets.cards import numbers_of_effect
from kit.widgets.energy import energy_view
from kit.widgets.filling import filling_view
from kit.widgets.kitchen import glass_view
from kit.widgets.planet import planet_view

LAMPS = {line.name: line.choices for line in LINES}["kind"]
NEVER_MIN = 60
AIR_AT_MIN = 11  # when the air went in, in the bundled air run: nothing bends there, so its plan says it
TEASPOON_G = 5.0  # of baking soda, level (common practice, no source)
CAUTIONS = ("ventilate", "way out", "eyes", "tablets", "lamp", "alone", "glass", "cylinder", "boiling", "rules")


def known(name):
    """The text for a name in braces, such as 'depth' or '00.effect'; None where the kit has no such number."""
    source, _, inner = name.rpartition(".")
    return SOURCES[source]().get(inner) if source in SOURCES else None


def _bench():
    """What the class's settings say, and what follows for the gas and for the room."""
    said, made = class_settings(), gas_dose()
    card = bench_card(made)
    texts = {"volume": f"{said['volume_l']:g} L", "depth": f"{said['depth_cm']:g} cm", "mouth": f"{said['mouth_cm']:g} cm"}
    texts |= {"lamp": LAMPS[said["kind"]], "lamp_watts": f"{said['power_w']:g} W", "taken_up": f"{said['taken_up_w']:g} W"}
    texts |= {"gas": made.made_from, "water": f"{made.setup.water_ml:g} mL", "litres": str(made.litres), "share": str(made.share)}
    texts |= {"groups": f"{made.setup.groups:g}", "room_size": f"{made.setup.room_m3:g} m³", "room_ppm": f"{rounded(made.room_ppm, 0)} ppm"}
    texts |= {"gas_at": f"{said['gas_at_min']:g}", "read_after": f"{said['read_after_min']:g}", "read_at": f"{card.gas_at_min + card.read_min:g}"}
    tolerance = said["tolerance_c_per_min"]
    texts |= {"drift": stated(tolerance), "drift_ten": stated(10 * tolerance)}
    return texts | period_of(card).texts | {f"caution_{code.replace(' ', '_')}": str(safety(code)[0]) for code in CAUTIONS}


def _expected():
    """What the model expects of the class's own pair."""
    expected, said = expected_pair(), class_settings()
    ends = {name: getattr(expected, name) for name in ("effect", "soon", "control")}
    texts = {name: span(each.low, each.high, 1) for name, each in ends.items()}
    low, high = expected.gone.low, expected.gone.high
    until = "longer than an hour" if high >= NEVER_MIN else f"{rounded(high, 0)} min"
    late = "You may come too late: read early, or take a deeper vessel."
    share = f"{rounded(expected.share.low, 0)} to {rounded(expected.share.high, 0)} %"
    in_time = late if low < said["read_after_min"] else "You read before that."
    return texts | {"share": share, "gone_from": f"{rounded(low, 0)} min", "gone_until": until, "in_time": in_time}


def _first_run():
    """Of the bundled run of lesson 00, in the windows that the kit suggests."""
    effect, texts = _of_run(read_lesson("00").run)
    largest = effect.budget[0]
    told = {"largest": largest.name, "largest_size": largest.size_text, "remedy": largest.remedy}
    return texts | told | {"gas_minute": f"{effect.windows.perturbation[0]:g}"}


def _of_run(name, windows=None):
    """(its `Effect`, what a sheet may name of it) of a bundled run, in the windows given or those that the kit suggests."""
    run = example_run(name)
    effect = paired_effect(run, windows or suggest_windows(run))
    return effect, numbers_of_effect(effect).texts | {"run": run.name}


def _home():
    """Of the kitchen's two bundled runs, and the vinegar that uses up a level teaspoon of soda."""
    vinegar_ml = dose.acid_needed_g(TEASPOON_G, "acetic") / dose.vinegar_acid_g(1)
    return glass_view().numbers().texts | {"vinegar": f"{rounded(float(vinegar_ml), -1)} mL"}


SOURCES = {
    "": _bench,
    "expect": _expected,
    "00": _first_run,
    "air": lambda: _of_run("flint-air", Windows.of_perturbation(AIR_AT_MIN))[1],
    "covered": lambda: _of_run("basalt-covered")[1],
    "01": lambda: energy_view().numbers().texts,
    "02": lambda: filling_view().numbers().texts,
    "11": lambda: planet_view().numbers().texts,
    "home": _home,
}
