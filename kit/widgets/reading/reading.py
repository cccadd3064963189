"""Group Dolomite's file, its lines beside the table that is read from them; every wrong answer gives a number that looks fine."""

import re
from functools import cache

from kit.analysis.effect import paired_effect, suggest_windows
from kit.examples import example_path
from kit.intake import cell_spans, read_run
from kit.intake.given import Raw
from kit.units import difference
from kit.widgets.cards import Numbers
from kit.widgets.shared import Grip, LOOK, Pick, rows, script, sheet, View

HELP = "Walk through the file. Touch a cell of the table: its signs in the file light up, and the other way round. Then answer below."
LOGGER, LAPTOP = "Logger time", "Laptop clock"
PICKS = [
    Grip("line", "lines of the file from", 4, 254, 4),
    Pick("mark", "20,88 in the file means", {"decimal": "20.88", "cut": "20, the rest is cut off"}, "decimal"),
    Pick("clock", "The time comes from", {LOGGER: "the logger", LAPTOP: "the laptop"}, LOGGER),
    Pick("control", "The control is", {"Control": "the column Control", "Treated": "the column Treated"}, "Control"),
    Pick("flat", "CO2 stays at 10000, because", {"top": "the probe shows no more", "steady": "the gas was steady"}, "top"),
    Pick("jump", "The jump in line 256", {"keep": "keep it", "flag": "keep it, with a flag", "leave out": "leave it out"}, "keep"),
]
RIGHT = {"mark": "decimal", "clock": LOGGER, "control": "Control", "flat": "top"}
WRONG = {"mark": "cut", "clock": LAPTOP, "control": "Treated", "flat": "steady"}
REASON = "a single reading, far from both beside it"
HEADS, SHOWN = (2, 3), 9  # the lines of names and units, always shown, and how many of the readings
ASKED = {"wrote": "24,5", "became": "245", "apart": "40 s"}  # in questions of the lesson, made up
SAME_C = 0.01  # ends of two ranges closer than this are the same


def reading_view():
    """The view of lesson 05: Dolomite's file, five answers under the hand, and the effect as it comes out each way."""
    return ReadingView("What is in the file?", PICKS, answer, help=HELP)


class ReadingView(View):
    """Lines of a file beside the table read from them, and what the answers make of the effect. Made by `reading_view`."""

    _esm, _css = script("reading/reading"), sheet(*LOOK, "reading/reading")

    def numbers(self):
        """What the lesson's cards ask: how many of the four wrong answers change the effect, and the effects themselves."""
        return outcomes()


def answer(line, mark, clock, control, flat, jump="keep"):
    """The lines, the table as it is read with these answers, and the effect with the jump kept and left out."""
    effect, other = effect_of(mark, clock, control, jump == "leave out"), effect_of(mark, clock, control, jump != "leave out")
    flag = f" The jump is kept with a flag: {REASON}." if jump == "flag" else ""
    gas = "CO2 was at least 10,000 ppm." if flat == "top" else "CO2 was 10,000 ppm, you say; the effect does not change by that."
    ways = ("left out", "kept") if jump == "leave out" else ("kept", "left out")
    lines = shown_lines(int(line), mark)
    return {
        "sentence": f"The reading goes through without a fault. {effect}{flag} {gas}",
        "numbers": [(f"effect, jump {way}", each.warming.range) for way, each in zip(ways, (effect, other))],
        "lines": lines,
        "heads": ["line", *(cell["text"] for cell in lines[0]["cells"])],
        "picture": f"{len(lines)} lines of the file beside the table that is read from them.",
        "table": rows("What each answer does to the effect, the jump kept", ["settled", "effect"], effects_in_words()),
    }


@cache
def effect_of(mark, clock, control, without_jump):
    """The `Effect` of Dolomite's file as these answers read it, at the marks of the right reading."""
    treated = "Treated" if control == "Control" else "Control"
    run = read_run(Raw("dolomite.csv", data_as(mark)), time=clock, treated=treated, control=control)
    jumps = [place for place in run.odd_places() if place.kind == "leap"]
    run = run.decide({place: ("leave out", REASON) for place in jumps}) if without_jump else run
    return paired_effect(run, marks())


@cache
def marks():
    return suggest_windows(read_run(example_path("dolomite"), time=LOGGER))


def data_as(mark):
    """The bytes of the file; with 'cut' as a program reads them that stops at the comma."""
    data = example_path("dolomite").read_bytes()
    return re.sub(rb"(\d+),\d+", rb"\1", data) if mark == "cut" else data


@cache
def shown_lines(first, mark):
    """The lines of names and units and some from `first` on, each cell with its place in the line and what is read from it."""
    lines = example_path("dolomite").read_text(encoding="utf-8").splitlines()
    return [line_of(number, lines[number - 1], mark) for number in (*HEADS, *range(first, first + SHOWN)) if number <= len(lines)]


def line_of(number, line, mark):
    cells = [{"from": start, "to": end, "text": line[start:end], "read": read_as(line[start:end], mark)} for start, end in cell_spans(line, ";")]
    return {"number": number, "line": line, "cells": cells}


def read_as(cell, mark):
    comma = re.fullmatch(r"(\d+),(\d+)", cell)
    return cell if not comma else comma[1] if mark == "cut" else f"{comma[1]}.{comma[2]}"


@cache
def outcomes():
    """`Numbers` for the cards: how many wrong answers move an end of the effect's range, and what comes out."""
    right = _settled({})
    wrong = {name: _settled({name: value}) for name, value in WRONG.items()}
    silent = sum(max(abs(each.warming.low - right.warming.low), abs(each.warming.high - right.warming.high)) > SAME_C for each in wrong.values())
    told = {name: each.warming.range for name, each in wrong.items()}
    without = effect_of("decimal", LOGGER, "Control", True).warming.range
    run = read_run(example_path("dolomite"), time=LOGGER)
    leap = next(place for place in run.odd_places() if place.kind == "leap")
    jump = run.readings.treated[leap.start_s] - run.readings.treated[: leap.start_s].iloc[-2]
    seen = {"leap": difference(jump, 0), "top": f"{run.readings.gas_ppm.max():,.0f} ppm"}
    return Numbers({"silent": silent}, {**told, **seen, **ASKED, "right": right.warming.range, "without": without, "silent": str(silent)})


def effects_in_words():
    told = outcomes().texts
    names = {"right": "all as the file means it", "mark": "cut off at the comma", "clock": "the laptop's clock", "control": "vessels changed over"}
    return [[words, told[name]] for name, words in (*names.items(), ("flat", "a steady gas"), ("without", "the jump left out"))]


def _settled(changes):
    answers = {**RIGHT, **changes}
    return effect_of(answers["mark"], answers["clock"], answers["control"], False)
