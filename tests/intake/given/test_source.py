"""Taking a source in: what is no file, and the file that is never touched."""

import os

import pytest

from kit.faults import IntakeFault
from kit.intake.given import source as sources
from kit.intake.given.source import Raw, take

GOOD = "elapsed_s,treated_degC,control_degC\n0,21.4,21.5\n2,21.5,21.5\n"


def refused(source):
    with pytest.raises(IntakeFault) as fault:
        take(source)
    return str(fault.value)


def test_the_file_is_only_read(tmp_path):
    path = tmp_path / "run.csv"
    path.write_text(GOOD)
    before = path.stat()
    assert take(path).data.decode() == GOOD
    assert (path.read_text(), path.stat().st_mtime_ns) == (GOOD, before.st_mtime_ns)


def test_a_text_of_several_lines_is_a_table_itself():
    assert take(GOOD) == Raw("pasted text", GOOD.encode())


def test_a_sheet_is_named_behind_a_sign(tmp_path):
    (tmp_path / "book.xlsx").write_bytes(b"x")
    (tmp_path / "my#run.csv").write_bytes(b"y")
    assert take(f"{tmp_path}/book.xlsx#Run 2") == Raw("book.xlsx", b"x", "Run 2")
    assert take(f"{tmp_path}/my#run.csv") == Raw("my#run.csv", b"y")


def test_what_is_missing_brings_the_nearest_name(tmp_path):
    (tmp_path / "basalt.csv").write_text(GOOD)
    assert refused(tmp_path / "basat.csv") == "basat.csv: There is no such file. Did you mean 'basalt.csv'?"
    assert refused(tmp_path / "q.csv") == "q.csv: There is no such file. Check the name, and the folder it is in."
    assert refused(tmp_path / "no" / "q.csv") == "q.csv: There is no such file. Check the folder's name."


def test_a_folder_is_no_file(tmp_path):
    (tmp_path / "class").mkdir()
    assert refused(tmp_path / "class") == "class: This is a folder, not a file. Name one file in it, or read them all with read_class."


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes on this system")
def test_a_pipe_is_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    assert refused(tmp_path / "pipe") == "pipe: This is a device or a pipe, not a file. Save the record to a file first."


def test_a_file_that_may_not_be_read(tmp_path, monkeypatch):
    path = tmp_path / "run.csv"
    path.write_text(GOOD)
    monkeypatch.setattr(sources.Path, "read_bytes", lambda _: (_ for _ in ()).throw(PermissionError(13, "denied")))
    assert refused(path) == (
        "run.csv: This file may not be read: permission denied. Close other programs that hold it, or copy it to your own folder."
    )


def test_two_gibibytes_are_refused_before_they_are_read(tmp_path):
    with open(tmp_path / "huge.csv", "wb") as file:
        file.truncate(2 << 30)
    assert refused(tmp_path / "huge.csv") == (
        "huge.csv: This file has 2,048 MiB; at most 256 are read. Save only the part with the run, or log less often."
    )


@pytest.mark.parametrize(
    "source, message",
    [
        (7, "Expected the path of a file, and was given int. Write it in quotes: read_run('run.csv')."),
        ("a" * 5000, f"{'a' * 40}: This file can't be opened. Copy it to your own folder, under a short name, and try that."),
        ("a#\0b", "a: There is no such file. Check the name, and the folder it is in."),
        ("a\0b", "ab: This file can't be opened. Copy it to your own folder, under a short name, and try that."),
    ],
)
def test_what_is_no_path(source, message):
    assert refused(source) == message
