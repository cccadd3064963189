"""Write every bundled file anew, byte for byte: `python datasets/regenerate.py` (or with another folder to write into).

All of it is invented: simulated by `kit.bench` from the recipes in `kit/bench/bundled.py`, with fixed seeds.
"""

import sys
from pathlib import Path

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent))

from kit.bench.bundled import CLASS, SINGLE  # noqa: E402
from kit.bench.simulation import recorded  # noqa: E402

NAMES = {"treated": "treated_degC", "control": "control_degC", "room": "room_degC", "gas_ppm": "gas_ppm"}


def regenerate(folder):
    """Write all files below `folder`."""
    for name, recipe in SINGLE.items():
        write(folder / f"{name}.csv", documented(recorded(recipe, name)))
    for name, recipe in CLASS.items():
        write(folder / "class" / f"{name}.csv", documented(recorded(recipe, name)))


def documented(run):
    """The kit's documented CSV: one header row, a unit in each name, elapsed seconds, a decimal point."""
    columns = list(run.readings)
    places = {name: 0 if name == "gas_ppm" else decimals(run.recipe.display_c) for name in columns}
    rows = [",".join(["elapsed_s", *(NAMES[name] for name in columns)])]
    for second, values in zip(run.readings.index, run.readings.to_numpy()):
        rows.append(",".join([f"{second:g}", *(f"{value:.{places[name]}f}" for name, value in zip(columns, values))]))
    return rows


def decimals(step):
    """Decimals that show a display's step: 0.01 needs two."""
    return len(f"{step:g}".partition(".")[2])


def write(path, rows, encoding="utf-8"):
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes("".join(f"{row}\n" for row in rows).encode(encoding))


if __name__ == "__main__":
    regenerate(Path(sys.argv[1]) if len(sys.argv) > 1 else HERE)
