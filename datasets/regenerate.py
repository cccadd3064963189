"""Write every bundled file anew, byte for byte: `python datasets/regenerate.py` (or with another folder to write into).

All of it is invented: simulated by `kit.bench` from the recipes in `kit/bench/bundled.py`, with fixed seeds.
"""

import sys
from pathlib import Path

HERE = Path(__file__).parent
# Before the imports below, so that the script runs from anywhere.
sys.path[:0] = [str(HERE.parent), str(HERE)]

import describing
import loggers

from kit.bench import CLASS, recorded, SINGLE

NAMES = {"treated": "treated_degC", "control": "control_degC", "room": "room_degC", "gas_ppm": "gas_ppm"}


def regenerate(folder):
    """Write all files below `folder`: the single runs, the class, the six loggers' files, and the package that describes them."""
    single = {f"{name}.csv": recorded(recipe, name) for name, recipe in SINGLE.items()}
    grouped = {f"class/{name}.csv": recorded(recipe, name) for name, recipe in CLASS.items()}
    files = {path: documented(run) for path, run in (single | grouped).items()}
    files |= {"dolomite.csv": loggers.dolomite(single["dolomite.csv"]), **loggers.six(single["basalt.csv"])}
    for path, content in files.items():
        write(folder / path, content)
    runs = {path: single["basalt.csv"] for path in files} | single | grouped
    write(folder / "datapackage.json", describing.package(files, runs))


def documented(run):
    """The kit's documented CSV: one header row, a unit in each name, elapsed seconds, a decimal point."""
    columns = list(run.readings)
    places = {name: 0 if name == "gas_ppm" else loggers.decimals(run.recipe.display_c) for name in columns}
    rows = [",".join(["elapsed_s", *(NAMES[name] for name in columns)])]
    for second, values in zip(run.readings.index, run.readings.to_numpy()):
        rows.append(",".join([f"{second:g}", *(f"{value:.{places[name]}f}" for name, value in zip(columns, values))]))
    return loggers.lines(rows)


def write(path, content):
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)


if __name__ == "__main__":
    regenerate(Path(sys.argv[1]) if len(sys.argv) > 1 else HERE)
