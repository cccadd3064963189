"""What `datapackage.json` says of each file (Data Package 2.0, datapackage.org): columns with units, origin, seed, licence."""

import json
from hashlib import sha256

LICENCE = {"name": "CC-BY-4.0", "title": "Creative Commons Attribution 4.0", "path": "https://creativecommons.org/licenses/by/4.0/"}
ORIGIN = "Invented: simulated by kit/bench from a model of open vessels, written by datasets/regenerate.py. No class measured this."
# Column: (type, unit, what it is).
FIELDS = {
    "elapsed_s": ("number", "s", "time since the first reading, when the lamp went on or the vessels were put into warm water"),
    "treated_degC": ("number", "°C", "thermometer in the treated vessel"),
    "control_degC": ("number", "°C", "thermometer in the control vessel"),
    "room_degC": ("number", "°C", "thermometer in the room"),
    "gas_ppm": ("number", "ppm", "CO2 in the treated vessel, parts per million by volume"),
}
ABOUT = {
    "basalt": "CO2 at minute 11, a clean record",
    "basalt-covered": "as basalt, with film over both mouths once the gas was in",
    "basalt-covered-shaded": "as basalt-covered, with foil over both thermometers",
    "basalt-filter": "as basalt, with a tank of water before the lamp",
    "basalt-swapped": "as basalt, with the vessels' places changed",
    "basalt-long": "as basalt, watched for 45 minutes after the gas: the effect ends with the gas",
    "chert-early": "CO2 at minute 4, before both vessels had settled",
    "dolomite": "CO2 at minute 11, a messy file: two clocks, decimal commas, a lost reading, a jump, a gas probe at its top end",
    "flint-air": "air in place of CO2 at minute 11, all else alike",
    "flint-swapped": "as the class's run of Flint, with the vessels' places changed",
    "gneiss-short": "CO2 at minute 11, a stone tile inside; the record ends soon after",
    "kitchen-film": "two drinking glasses in warm water, no lamp; film over one at minute 10, read once a minute to half a degree",
    "kitchen-gas": "two drinking glasses in warm water, no lamp; CO2 poured into one at minute 10, read once a minute to half a degree",
    "marble-argon": "argon in place of CO2 at minute 11",
    "marble-swapped": "as the class's run of Marble, with the vessels' places changed",
    "pumice-dark": "no lamp, both vessels in warm water; CO2 at minute 11",
    "pumice-stirred": "CO2 at minute 11, a fan in both vessels",
    "pumice-shaded": "CO2 at minute 11, foil over both thermometers",
    "pumice-swapped": "as the class's run of Pumice, with the vessels' places changed",
    "slate-hand": "CO2 at minute 11, read by eye once a minute to half a degree",
    "reference": "CO2 at minute 11, quiet thermometers, once a second",
}


def package(files, runs):
    """The bytes of `datapackage.json` for `files` (path -> bytes) and the `runs` behind them (path -> Run)."""
    described = {
        "$schema": "https://datapackage.org/profiles/2.0/datapackage.json",
        "name": "twin-vessels-runs",
        "title": "Simulated runs of the paired warming experiment",
        "description": ORIGIN,
        "version": "1.0.0",
        "licenses": [LICENCE],
        "contributors": [{"title": "The Twin Vessels authors", "roles": ["author"]}],
        "resources": [resource(path, content, runs.get(path)) for path, content in files.items()],
    }
    return (json.dumps(described, indent=1, ensure_ascii=False) + "\n").encode()


def resource(path, content, run):
    stem = path.rpartition("/")[2].rpartition(".")[0]
    described = {"name": path.rpartition(".")[0].replace("/", "-"), "type": "table", "path": path}
    described |= {"description": f"{about(path, stem)}. {ORIGIN}", "format": "csv", "mediatype": "text/csv"}
    described |= LAYOUTS[path] if path in LAYOUTS else documented(content)
    origin = {"seed": run.recipe.seed, "bytes": len(content), "hash": f"sha256:{sha256(content).hexdigest()}"}
    return described | {"licenses": [LICENCE]} | origin


def about(path, stem):
    if path.startswith("six-loggers"):
        return "Every fifth reading of basalt, as another logger might write it"
    if path.startswith("class"):
        return f"The class's run of group {stem.capitalize()}, CO2 at minute 11"
    return f"Simulated run: {ABOUT[stem]}"


def documented(content):
    """Encoding and columns of the kit's documented CSV, from its header."""
    header = content.split(b"\n", 1)[0].decode()
    fields = [field(name, *FIELDS[name]) for name in header.split(",")]
    return {"encoding": "utf-8", "dialect": {"delimiter": ","}, "schema": {"fields": fields}}


def field(name, kind, unit, description, **more):
    return {"name": name, "type": kind, "unit": unit, "description": description, **more}


def layout(encoding, delimiter, header_row, comment_rows, *fields, **more):
    """What sets an odd file apart: its encoding, where its header stands, which lines hold no readings, its columns."""
    dialect = {"delimiter": delimiter, "headerRows": [header_row], **({"commentRows": comment_rows} if comment_rows else {})}
    return {"encoding": encoding, "dialect": dialect, "schema": {"fields": list(fields), **more}}


def vessels(treated, control, unit, **more):
    said = "thermometer in the {} vessel"
    return tuple(field(name, "number", unit, said.format(role), **more) for role, name in (("treated", treated), ("control", control)))


COMMA = {"decimalChar": ","}
LAYOUTS = {
    "dolomite.csv": layout(
        "utf-8", ";", 2, [1, 3],
        field("Logger time", "string", "h:mm:ss", "time since the first reading"),
        field("Laptop clock", "string", "h:mm:ss", "the laptop's time of day; put right by 40 s during the run"),
        *vessels("Treated", "Control", "°C", **COMMA),
        field("CO2", "integer", "ppm", "CO2 in the treated vessel; the probe's top end is 10,000 ppm"),
        missingValues=["---"],
    ),
    "six-loggers/1-comma-seconds.csv": layout(
        "utf-8", ",", 1, [], field("Time (s)", "integer", "s", "time since the first reading"),
        *vessels("Treated (°C)", "Control (°C)", "°C"), field("CO2 (ppm)", "integer", "ppm", "CO2 in the treated vessel"),
    ),
    "six-loggers/2-semicolon-clock.csv": layout(
        "cp1252", ";", 1, [], field("Datum", "string", "dd.mm.yyyy h:mm:ss", "date and time of day"),
        *vessels("Behandelt (°C)", "Kontrolle (°C)", "°C", **COMMA),
    ),
    "six-loggers/3-tab-preamble.txt": layout(
        "utf-8", "\t", 5, [1, 2, 3, 4, 6], field("Elapsed", "string", "mm:ss", "time since the first reading"),
        *vessels("Treated", "Control", "°C"),
    ),
    "six-loggers/4-iso-fahrenheit.csv": layout(
        "utf-8", ",", 1, [], field("timestamp", "string", "ISO 8601", "date and time of day"),
        *vessels("treated_degF", "control_degF", "°F"),
    ),
    "six-loggers/5-pipe-kelvin.txt": layout(
        "utf-8", "|", 1, [], field("t [min]", "number", "min", "time since the first reading"), *vessels("Probe 1 [K]", "Probe 2 [K]", "K"),
    ),
    "six-loggers/6-twelve-hours.txt": layout(
        "utf-16", "\t", 1, [2], field("Clock", "string", "h:mm:ss AM/PM", "time of day"),
        *vessels("Treated vessel", "Control vessel", "°C"),
    ),
}  # fmt: skip
