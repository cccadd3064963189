"""A class's folder or zip: what can be read is read, what can't is named, and tricks are refused."""

import os
import stat
import zipfile

import pytest

from kit.faults import Fault
from kit.intake.classes import files as classfiles
from kit.intake.classes.folder import read_class

GOOD = "elapsed_s,treated_degC,control_degC\n0,20,20\n2,20.5,20.1\n4,21,20.2\n"
HEADER_ALONE = "elapsed_s,treated_degC,control_degC\n"


def folder(tmp_path, **files):
    for name, text in files.items():
        path = tmp_path / "class" / name.replace("__", "/").replace("_csv", ".csv")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return tmp_path / "class"


def zipped(tmp_path, *entries):
    path = tmp_path / "class.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for entry, text in entries:
            archive.writestr(entry, text)
    return path


def other(shift):
    return GOOD.replace("0,20,20", f"0,{20 + shift},20")


def test_the_rest_is_read_when_one_file_is_faulty(tmp_path):
    made = read_class(folder(tmp_path, basalt_csv=GOOD, chert_csv=HEADER_ALONE, flint_csv=other(1)))
    assert [run.name for run in made] == ["basalt", "flint"] and str(made) == "Class class: 2 runs. 1 file could not be read."
    assert made.faults[0].file == "chert.csv" and "chert.csv" in made._repr_html_()


def test_a_zip_gives_what_its_folder_gives(tmp_path):
    made = read_class(zipped(tmp_path, ("basalt.csv", GOOD), ("more/flint.csv", other(1)), ("__MACOSX/._basalt.csv", "x"), ("photo.jpg", "x")))
    assert [run.name for run in made] == ["basalt", "flint"] and made.groups == {"flint": "more"}
    assert made.passed_over == (("photo.jpg", "not a kind of file that holds a record"),) and made["flint"].source.name == "more/flint.csv"


def test_runs_of_the_same_name_are_told_apart_and_twins_are_noticed(tmp_path):
    made = read_class(folder(tmp_path, a__run_csv=GOOD, b__run_csv=GOOD))
    assert [run.name for run in made] == ["a run", "b run"] and made.groups == {"a run": "a", "b run": "b"}
    assert made.remarks == ("b/run.csv and a/run.csv are the same record, byte for byte. Take one out, or it counts twice.",)


def test_a_table_of_names_names_the_runs(tmp_path):
    made = read_class(folder(tmp_path, x1_csv=GOOD, names_csv="file,name\nx1.csv,Basalt\n"))
    assert [run.name for run in made] == ["Basalt"]
    made = read_class(folder(tmp_path, x1_csv=GOOD, names_csv="datei;name\n"))
    assert str(made.faults[0]) == "names.csv, line 1: The table of names needs the columns 'file' and 'name'. Write them in its first line."


def test_the_keywords_hold_for_every_file(tmp_path):
    open_question = GOOD.replace("treated_degC,control_degC", "A,B")
    made = read_class(folder(tmp_path, basalt_csv=open_question, chert_csv=open_question.replace("21", "22")), treated="A", control="B", unit="degC")
    assert len(made) == 2 and made.faults == ()


def test_progress_is_told_over_ten_files_only(tmp_path):
    said = []
    read_class(folder(tmp_path, **{f"run{n}_csv": other(n) for n in range(12)}), progress=said.append)
    assert said == ["Read 10 of 12 files.", "Read 12 of 12 files."]
    read_class(folder(tmp_path / "few", basalt_csv=GOOD), progress=said.append)
    assert len(said) == 2


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("../evil.csv", "../evil.csv: Its name in the zip points outside the zip. Make the zip anew from the class's folder."),
        ("/etc/evil.csv", "/etc/evil.csv: Its name in the zip points outside the zip. Make the zip anew from the class's folder."),
        ("C:\\evil.csv", "C:\\evil.csv: Its name in the zip points outside the zip. Make the zip anew from the class's folder."),
    ],
)
def test_paths_that_lead_out_of_a_zip_are_refused(tmp_path, name, text):
    made = read_class(zipped(tmp_path, ("basalt.csv", GOOD), (name, GOOD)))
    assert [str(fault) for fault in made.faults] == [text] and not list(tmp_path.parent.glob("evil*"))


def test_a_link_in_a_zip_is_refused(tmp_path):
    link = zipfile.ZipInfo("link.csv")
    link.external_attr = (stat.S_IFLNK | 0o777) << 16
    made = read_class(zipped(tmp_path, ("basalt.csv", GOOD), (link, "/etc/passwd")))
    assert [str(fault) for fault in made.faults] == ["link.csv: This is a link, not a file. Put the file itself into the zip."]


@pytest.mark.skipif(not hasattr(os, "symlink") or os.name == "nt", reason="links need rights of their own on Windows")
def test_a_link_out_of_the_folder_is_refused(tmp_path):
    (tmp_path / "outside.csv").write_text(GOOD)
    here = folder(tmp_path, basalt_csv=other(1))
    (here / "link.csv").symlink_to(tmp_path / "outside.csv")
    made = read_class(here)
    text = "link.csv: This is a link to a file outside the class's folder. Copy the file itself into the folder."
    assert [str(fault) for fault in made.faults] == [text] and len(made) == 1


def test_a_bomb_is_stopped_at_the_limit_whatever_its_entry_claims(tmp_path, monkeypatch):
    monkeypatch.setattr(classfiles, "LARGEST_MEMBER_BYTES", 1000)
    path = zipped(tmp_path, ("basalt.csv", GOOD), ("bomb.csv", "0" * 100_000))
    data = path.read_bytes().replace((100_000).to_bytes(4, "little"), (10).to_bytes(4, "little"))
    for name, content in (("honest.zip", path.read_bytes()), ("lying.zip", data)):
        (tmp_path / name).write_bytes(content)
        made = read_class(tmp_path / name)
        assert len(made) == 1 and made.faults[0].file == "bomb.csv"


def test_a_class_too_large_is_refused(tmp_path, monkeypatch):
    monkeypatch.setattr(classfiles, "MOST_FILES", 1)
    with pytest.raises(Fault) as raised:
        read_class(folder(tmp_path, basalt_csv=GOOD, chert_csv=other(1)))
    assert str(raised.value) == "class holds 2 files; at most 1 are read at once. Split the class into several folders."
    monkeypatch.setattr(classfiles, "MOST_FILES", 10)
    monkeypatch.setattr(classfiles, "LARGEST_CLASS_BYTES", 2**20)
    with pytest.raises(Fault) as raised:
        read_class(folder(tmp_path, basalt_csv=GOOD + " " * 2**20))
    assert str(raised.value) == "class holds more than 1 MiB of records. Split the class into several folders."


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("nowhere", "There is no folder and no zip file 'nowhere'. Check the name, and the folder it is in."),
        ("basalt.csv", "basalt.csv is neither a folder nor a zip file. Name the class's folder, or read one file with read_run."),
        ("empty", "empty holds no run that can be read. Put the class's files into it: csv, txt, tsv, dat, log or xlsx."),
    ],
)
def test_a_source_without_records_says_what_to_do(tmp_path, name, text):
    (tmp_path / "empty").mkdir()
    (tmp_path / "basalt.csv").write_text(GOOD)
    with pytest.raises(Fault) as raised:
        read_class(tmp_path / name)
    assert str(raised.value) == text
