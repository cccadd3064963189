"""The bundled files: made anew byte for byte, described by an open standard, each saying that it is invented."""

import importlib.util
import json
from pathlib import Path

import numpy as np
import pytest

from kit.intake.read import read_run

DATASETS = Path(__file__).parents[2] / "datasets"
PACKAGE = json.loads((DATASETS / "datapackage.json").read_text(encoding="utf-8"))
RESOURCES = {each["path"]: each for each in PACKAGE["resources"]}
BY_HAND = {"README.md", ".gitattributes", "regenerate.py", "loggers.py", "describing.py"}


def files_below(folder):
    kept = (path for path in folder.rglob("*") if path.is_file() and "__pycache__" not in path.parts)
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in kept}


def test_one_script_writes_every_file_again_byte_for_byte(tmp_path):
    spec = importlib.util.spec_from_file_location("regenerate", DATASETS / "regenerate.py")
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    script.regenerate(tmp_path)
    here, again = files_below(DATASETS), files_below(tmp_path)
    assert set(again) == set(here) - BY_HAND
    assert [path for path in again if again[path] != here[path]] == []


def report_of(package):
    """frictionless 5, the reference implementation of Data Package (frictionlessdata.io)."""
    import frictionless

    return frictionless.validate(str(package))


@pytest.mark.slow
def test_the_package_keeps_to_data_package_2():
    report = report_of(DATASETS / "datapackage.json")
    assert PACKAGE["$schema"] == "https://datapackage.org/profiles/2.0/datapackage.json"
    assert report.valid, report.to_summary()
    assert report.stats["tasks"] == len(RESOURCES)


@pytest.mark.slow
@pytest.mark.parametrize("harm", [lambda text: text.replace("21.", "x", 1), lambda text: text.replace("treated", "left", 1)])
def test_a_file_whose_columns_were_harmed_does_not_pass(tmp_path, harm):
    columns_alone = {key: value for key, value in RESOURCES["pumice-shaded.csv"].items() if key not in ("bytes", "hash")}
    only = {**PACKAGE, "resources": [columns_alone]}
    (tmp_path / "datapackage.json").write_text(json.dumps(only), encoding="utf-8")
    (tmp_path / "pumice-shaded.csv").write_text(harm((DATASETS / "pumice-shaded.csv").read_text(encoding="utf-8")), encoding="utf-8")
    assert not report_of(tmp_path / "datapackage.json").valid


def test_every_file_is_described():
    assert set(RESOURCES) == set(files_below(DATASETS)) - BY_HAND - {"datapackage.json"}


@pytest.mark.parametrize("resource", RESOURCES.values(), ids=RESOURCES)
def test_every_file_says_that_it_is_invented_with_units_seed_and_licence(resource):
    assert "Invented: simulated" in resource["description"]
    assert all(field["unit"] and field["description"] for field in resource["schema"]["fields"])
    assert isinstance(resource["seed"], int)
    assert resource["licenses"][0]["name"] == "CC-BY-4.0"


def test_no_two_runs_share_a_seed_unless_they_are_the_same_run():
    seeds = {path: resource["seed"] for path, resource in RESOURCES.items() if not path.startswith("six-loggers")}
    alike = {path for path in seeds if list(seeds.values()).count(seeds[path]) > 1}
    assert alike == {"basalt.csv", "class/basalt.csv", "dolomite.csv", "class/dolomite.csv"}


SIX = {"5-pipe-kelvin.txt": {"treated": "Probe 1", "control": "Probe 2"}}


@pytest.mark.parametrize("path", [each for each in RESOURCES if each.startswith("six-loggers")])
def test_six_hands_wrote_the_same_run(path):
    """0.01 K and 0.01 °F round by up to 0.005 K; the times are whole seconds, in minutes to 0.003 s."""
    run = read_run(DATASETS / path, **SIX.get(Path(path).name, {}))
    basalt = read_run(DATASETS / "basalt.csv").readings.iloc[::5]
    assert run.readings.index.to_numpy() == pytest.approx(basalt.index.to_numpy(), abs=0.004)
    for vessel in ("treated", "control"):
        assert run.readings[vessel].to_numpy() == pytest.approx(basalt[vessel].to_numpy(), abs=0.0051)


def test_dolomite_wrote_its_tidy_run_with_one_reading_lost_and_one_jump():
    messy = read_run(DATASETS / "dolomite.csv", time="Logger time").readings
    tidy = read_run(DATASETS / "class" / "dolomite.csv").readings
    apart = (messy["treated"] - tidy["treated"]).round(6)
    assert apart[apart != 0].dropna().to_dict() == {1260.0: 6.0}
    assert list(messy.index[messy["treated"].isna()]) == [500.0]
    assert messy["control"].equals(tidy["control"])
    assert messy["gas_ppm"].iloc[-1] == np.max(messy["gas_ppm"]) == 10_000


def test_dolomite_s_two_clocks_are_asked_about():
    from kit.faults import IntakeFault

    with pytest.raises(IntakeFault) as caught:
        read_run(DATASETS / "dolomite.csv")
    assert caught.value.keyword == "time"
