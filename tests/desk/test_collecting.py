"""A class's files: hand-ins, plain files, zips of both; what is damaged or forged is named and passed over, and thirty take seconds."""

import json
import pickle
import shutil
import time
import zipfile

import pytest

from kit.desk import collect
from kit.examples import DATASETS
from tests.report.test_handin import FORGED, recorded

SIX = ("Amber", "Birch", "Cedar", "Dune", "Elm", "Fern")


def zipped(path, folder):
    with zipfile.ZipFile(path, "w") as archive:
        for each in sorted(folder.rglob("*")):
            archive.write(each, each.relative_to(folder).as_posix())
    return path


def test_hand_ins_are_read_and_the_kits_own_runs_are_not_pooled(handed_in):
    came = collect(handed_in(SIX))
    assert str(came) == "6 hand-ins and 6 runs came in." and [made.group for made in came.runs] == list(SIX)
    assert all(made.marked and made.effect.warming.value > 1 for made in came.runs)
    assert came.remarks == ("6 hand-ins also hold marks on runs of the kit. Those are not pooled.",)


def test_numbers_are_those_of_the_files_whatever_the_hand_in_says(handed_in):
    folder = handed_in(SIX[:1])

    def better(record):
        record["runs"][0]["numbers"]["effect"]["warming"].update(value=99.0, low=98.0, high=100.0)
        record["runs"][0]["kind"] = "simulated"

    honest = collect(folder).runs[0].effect.warming.value
    path = folder / "hand-in-Amber.zip"
    recorded(path, better).replace(path)
    assert collect(folder).runs[0].effect.warming.value == honest < 3


def test_plain_files_zips_and_unpacked_hand_ins_come_in_together(handed_in, tmp_path):
    folder = handed_in(SIX[:2])
    shutil.copy(DATASETS / "class" / "slate.csv", folder / "slate.csv")
    with zipfile.ZipFile(folder / "hand-in-Birch.zip") as archive:
        archive.extractall(folder / "hand-in-Birch")
    (folder / "hand-in-Birch.zip").unlink()
    whole = tmp_path / "all"
    whole.mkdir()
    zipped(whole / "class.zip", folder)
    for source in (folder, whole, whole / "class.zip"):
        assert sorted(made.group for made in collect(source).runs) == ["Amber", "Birch", "slate"]


def test_what_cannot_be_read_is_told_with_reason_and_whom_to_ask(handed_in):
    folder = handed_in(SIX[:2])
    (folder / "flint.csv").write_text("minutes,a\n1,2\n")
    path = folder / "hand-in-Birch.zip"
    path.write_bytes(path.read_bytes()[:900])
    came = collect(folder)
    assert len(came.runs) == 1 and [(each.file, each.whom) for each in came.unread] == [("hand-in-Birch.zip", "hand-in-Birch"), ("flint.csv", "flint")]
    assert "can't be opened as a zip file" in str(came.unread[0]) and str(came.unread[0]).endswith("Ask: hand-in-Birch.")
    assert "read_run(" not in str(came.unread[1])


@pytest.mark.parametrize("forge", FORGED.values(), ids=FORGED)
def test_a_forged_hand_in_is_passed_over_and_the_others_are_read(handed_in, forge):
    folder = handed_in(SIX[:2])
    forge(folder / "hand-in-Birch.zip").replace(folder / "hand-in-Birch.zip")
    came = collect(folder)
    assert [made.group for made in came.runs] == ["Amber"]
    assert "This hand-in is damaged" in str(came.unread[-1]) and "Ask: hand-in-Birch." in str(came.unread[-1])


def test_files_of_other_kinds_links_and_ways_out_do_nothing(handed_in, tmp_path):
    folder = handed_in(SIX[:1])
    (folder / "bomb.pkl").write_bytes(pickle.dumps(print))
    (tmp_path / "secret.csv").write_text("elapsed_s,treated_degC,control_degC\n0,20,20\n2,20.5,20.1\n")
    (folder / "link.csv").symlink_to(tmp_path / "secret.csv")
    with zipfile.ZipFile(folder / "out.zip", "w") as archive:
        archive.writestr("../../out.csv", "elapsed_s,treated_degC,control_degC\n0,20,20\n2,20.5,20.1\n")
    came = collect(folder)
    assert len(came.runs) == 1 and not (folder.parent / "out.csv").exists() and not (folder.parents[1] / "out.csv").exists()
    assert any("link to a file outside" in str(each) for each in came.unread) and any("points outside the zip" in str(each) for each in came.unread)


def test_a_zip_in_a_zip_in_a_zip_is_left_shut(handed_in, tmp_path):
    inner = handed_in(SIX[:1])
    for depth in range(3):
        outer = tmp_path / f"depth-{depth}"
        outer.mkdir()
        zipped(outer / "class.zip", inner)
        inner = outer
    assert [str(each).split(" (")[1][:35] for each in collect(inner).unread] == ["It is a zip in a zip in a zip.). Ha"]


def test_the_same_record_from_two_counts_once(handed_in, tmp_path):
    folder = handed_in(SIX[:1])

    def renamed(record):
        record["from"] = "Zoe"
        record["lessons"] = {}

    recorded(folder / "hand-in-Amber.zip", renamed).rename(folder / "hand-in-Zoe.zip")
    came = collect(folder)
    assert len(came.runs) == 1 and len(came.packages) == 2
    assert came.remarks[0] == "Zoe and Amber brought the same record of run, byte for byte. It counts once, with Amber's windows."


def test_an_older_hand_in_of_the_same_work_is_passed_over(handed_in):
    folder = handed_in(SIX[:1])

    def older(record):
        record["lessons"]["00"] = record["lessons"]["00"][:2]

    recorded(folder / "hand-in-Amber.zip", older).rename(folder / "hand-in (1).zip")
    came = collect(folder)
    assert [package.name for package in came.packages] == ["hand-in-Amber.zip"] and "holds the same work as" in came.remarks[0]


def test_an_answer_of_another_form_counts_as_none(handed_in):
    folder = handed_in(SIX[:1])

    def odd(record):
        record["lessons"]["00"] += [{"card": "00.warmer", "kind": "prediction", "content": {"words": ["list"]}, "at": "x"}]
        record["lessons"]["../../etc"] = []

    path = folder / "hand-in-Amber.zip"
    recorded(path, odd).replace(path)
    package = collect(folder).packages[0]
    assert "There is no lesson '../../etc'" in package.material.faults[0]
    assert json.dumps(package.record["from"]) == '"Amber"'


@pytest.mark.alone
def test_thirty_hand_ins_take_less_than_ten_seconds(handed_in):
    folder = handed_in([f"Group {n:02}" for n in range(30)])
    collect(folder)  # what a first call loads is no matter of how many there are
    began = time.perf_counter()
    came = collect(folder)
    took = time.perf_counter() - began
    print(f"30 hand-ins read, measured and sorted: {took:.1f} s")
    assert len(came.runs) == len(came.packages) == 30 and took < 10
