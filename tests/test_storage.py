"""A file is written whole or not at all."""

import os

import pytest

from kit.storage import write_atomically


def test_a_new_folder_and_file_are_made(tmp_path):
    write_atomically(tmp_path / "marks" / "a.json", "größe")
    assert (tmp_path / "marks" / "a.json").read_bytes() == "größe".encode()


def test_a_failure_leaves_the_old_file_and_nothing_else(tmp_path, monkeypatch):
    path = tmp_path / "a.json"
    write_atomically(path, "old")
    monkeypatch.setattr(os, "replace", lambda *_: (_ for _ in ()).throw(OSError("disk full")))
    with pytest.raises(OSError):
        write_atomically(path, "new")
    assert path.read_text() == "old" and [each.name for each in tmp_path.iterdir()] == ["a.json"]
