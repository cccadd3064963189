"""`pool`: the table and the pooled result; the same by one process and by several, after an interruption, and by the class's own way."""

import csv
import gc
import json
import os
import shutil
import sys
from argparse import Namespace
from concurrent.futures.process import BrokenProcessPool
from types import SimpleNamespace

import pytest

from kit import class_effect, read_class
from kit.bootstrap.places import DATASETS
from kit.commands import pool as command, spreading
from kit.commands.pool import pool, records_in, RESULT, SO_FAR, TABLE


@pytest.fixture
def records(tmp_path):
    """The bundled class, with a file that holds no record and one that is none."""
    folder = tmp_path / "class"
    shutil.copytree(DATASETS / "class", folder)
    (folder / "empty.csv").write_text("nothing here\n")
    (folder / "plan.pdf").write_text("x")
    return folder


@pytest.fixture
def run(tmp_path, records):
    def pooled(*folders, into="into", workers=1, dask=None, say=(), pooled_too=True):
        status = pool(Namespace(folders=list(folders or [records]), into=tmp_path / into, workers=workers, dask=dask, say=say))
        assert status == 0 and sorted(path.name for path in (tmp_path / into).iterdir()) == [TABLE, RESULT][: 1 + pooled_too]
        with open(tmp_path / into / TABLE, encoding="utf-8", newline="") as table:
            return list(csv.DictReader(table))

    return pooled


def test_the_pooled_result_is_that_of_the_class_and_a_fault_is_named(run, records, tmp_path, capsys):
    rows = run()
    ours, kept = class_effect(read_class(records, progress=len)), json.loads((tmp_path / "into" / RESULT).read_text("utf-8"))
    assert [kept["mean"][name] for name in ("value", "low", "high")] == [ours.mean.value, ours.mean.low, ours.mean.high]
    assert (kept["spread"]["value"], kept["next_group"]["high"]) == (ours.spread.value, ours.next_group.high)
    assert [row["file"] for row in rows] == sorted(path.name for path in records.glob("*.csv"))
    assert [float(row["warming_degC"]) for row in rows if not row["fault"]] == [share.warming.value for share in ours.shares]
    printed = capsys.readouterr().out
    assert "1 file gave no number: empty.csv. The column fault says why." in printed and ours.mean.value_text in printed
    fault = next(row["fault"] for row in rows if row["file"] == "empty.csv")
    assert fault in str(read_class(records, progress=len).faults[0]) or "empty.csv" in fault


def test_several_processes_write_the_same_bytes_as_one(run, tmp_path):
    run(into="one"), run(into="two", workers=2)
    for name in (TABLE, RESULT):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_dask_writes_the_same_bytes(run, tmp_path):
    """Where dask is installed: the kit does not ask for it."""
    distributed = pytest.importorskip("distributed")
    with distributed.LocalCluster(n_workers=1, threads_per_worker=1, dashboard_address=None) as cluster:
        run(into="one"), run(into="dask", dask=cluster.scheduler_address)
    for name in (TABLE, RESULT):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "dask" / name).read_bytes()


def test_an_address_that_dask_cannot_read_is_a_sentence(tmp_path, records, capfd):
    pytest.importorskip("distributed")
    for address in ("nonsense", "http://127.0.0.1:1", "127.0.0.1:x"):
        with pytest.raises(SystemExit, match="^No dask scheduler answers at"):
            pool(Namespace(folders=[records], into=tmp_path / "into", workers=1, dask=address, say=[]))
    gc.collect()
    assert "Traceback" not in capfd.readouterr().err


def test_without_dask_or_a_scheduler_there_is_a_sentence(tmp_path, records, monkeypatch):
    client = SimpleNamespace(Client=lambda *_, **__: (_ for _ in ()).throw(OSError("timed out")), KilledWorker=Exception)
    monkeypatch.setitem(sys.modules, "distributed.comm", SimpleNamespace(get_address_host_port=str))
    for module, sentence in ((None, "--dask needs dask's package"), (client, "No dask scheduler answers at tcp://x:1 (timed out). ")):
        monkeypatch.setitem(sys.modules, "distributed", module)
        with pytest.raises(SystemExit) as end:
            pool(Namespace(folders=[records], into=tmp_path / "into", workers=1, dask="tcp://x:1", say=[]))
        assert str(end.value).startswith(sentence)


def test_stopped_it_goes_on_where_it_was_even_in_the_middle_of_a_line(run, tmp_path, records, monkeypatch, capsys):
    run(into="whole")
    read, begun = command.row_of, []

    def stopped(path, known):
        begun.append(path.name)
        if len(begun) == 4:
            raise KeyboardInterrupt
        return read(path, known)

    monkeypatch.setattr(command, "row_of", stopped)
    with pytest.raises(KeyboardInterrupt):
        pool(Namespace(folders=[records], into=tmp_path / "into", workers=1, dask=None, say=[]))
    so_far = tmp_path / "into" / SO_FAR
    so_far.write_bytes(so_far.read_bytes()[:-9])  # as a cut of the power leaves it
    capsys.readouterr()
    run()
    assert begun[4:6] == begun[2:4] and "2 files of 9 were worked out before and have not changed." in capsys.readouterr().out
    for name in (TABLE, RESULT):
        assert (tmp_path / "into" / name).read_bytes() == (tmp_path / "whole" / name).read_bytes()


def test_a_reading_process_that_is_killed_ends_it_with_a_sentence(run, monkeypatch):
    class Executor:
        def __init__(self, *_):
            self.map = lambda *_, **__: (_ for _ in ()).throw(BrokenProcessPool("terminated abruptly"))

        def shutdown(self, **_):
            pass

    with monkeypatch.context() as changed, pytest.raises(SystemExit, match="^A process that read files was ended .* go on. Then take fewer --workers"):
        changed.setattr(spreading, "ProcessPoolExecutor", Executor)
        run(workers=2)


def test_only_what_has_changed_is_worked_out_again(run, records, monkeypatch):
    before = run()
    (records / "basalt.csv").write_bytes((DATASETS / "basalt.csv").read_bytes() + b"\n")
    (records / "slate.csv").unlink()
    read, again = command.row_of, []
    monkeypatch.setattr(command, "row_of", lambda path, known: again.append(path.name) or read(path, known))
    after = run()
    assert again == ["basalt.csv"] and [row["file"] for row in after] == [row["file"] for row in before if row["file"] != "slate.csv"]


def test_a_fault_that_nobody_foresaw_does_not_stop_the_others(run, monkeypatch):
    def broken(path):
        raise RuntimeError("boom")

    monkeypatch.setattr(command, "read_run", lambda path: broken(path) if path.name == "flint.csv" else original(path))
    faults = {row["file"]: row["fault"] for row in run() if row["fault"]}
    assert faults["flint.csv"] == "The kit met something it did not expect (RuntimeError: boom)."


original = command.read_run


def test_a_subfolder_is_a_group_and_a_folder_is_a_class(tmp_path, records):
    (records / "Red").mkdir()
    shutil.move(records / "basalt.csv", records / "Red")
    (tmp_path / "b").mkdir()
    shutil.copytree(records, tmp_path / "b" / "class")
    one, two = records_in([records], tmp_path), records_in([records, tmp_path / "b"], tmp_path)
    assert (one["Red/basalt.csv"][1], one["flint.csv"][1]) == ("Red", "")
    assert (two["class/Red/basalt.csv"][1], two["class/flint.csv"][1], two["b/class/flint.csv"][1]) == ("class/Red", "", "b/class")
    assert "empty.csv" in one and "plan.pdf" not in one


def test_what_every_file_leaves_open_is_said_once(run, tmp_path, capsys):
    folder = tmp_path / "unit-less"
    folder.mkdir()
    for name in ("basalt", "flint"):
        text = (DATASETS / "class" / f"{name}.csv").read_text()
        (folder / f"{name}.csv").write_text(text.replace("treated_degC", "treated").replace("control_degC", "control"))
    assert all("No unit is written" in row["fault"] for row in run(folder, pooled_too=False))
    assert "2 times: No unit is written for 'treated' and 'control'. Say unit='degC'" in capsys.readouterr().out
    numbers = [row["warming_degC"] for row in run(folder, say=[("unit", "degC")])]
    assert numbers == [row["warming_degC"] for row in run(into="named") if row["file"] in ("basalt.csv", "flint.csv")]
    with pytest.raises(SystemExit, match=r"^pool --say knows no units=\. It takes those of read_run: treated, "):
        run(folder, say=[("units", "degC")])


@pytest.mark.skipif(os.name == "nt", reason="links need a right of their own there")
def test_links_and_its_own_table_are_no_records(tmp_path, records):
    (records / "link.csv").symlink_to(records / "basalt.csv")
    (records / "into").mkdir()
    (records / "into" / TABLE).write_text("file\n")
    assert {name for name in records_in([records], records / "into") if "link" in name or "into" in name} == set()


def test_records_that_are_not_there_are_a_sentence(tmp_path):
    with pytest.raises(SystemExit) as end:
        pool(Namespace(folders=[tmp_path], into=tmp_path / "into", workers=1, dask=None, say=[]))
    assert str(end.value).startswith("There is no record in these folders: no file that ends with .asc, ")
    with pytest.raises(SystemExit) as end:
        pool(Namespace(folders=[tmp_path / "x"], into=tmp_path / "into", workers=1, dask=None, say=[]))
    assert str(end.value) == f"There is no folder {tmp_path / 'x'}. Check its name."
