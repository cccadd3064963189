"""Lock files made anew. A function stands in for uv, which would have to be fetched; what it found is in test_locks.py."""

import pytest

from kit.bootstrap import renewing
from kit.bootstrap.renewing import blocks, locked, pins, renew
from kit.bootstrap.requirements import lock_files

HASH = "    --hash=sha256:{}\n"
PANDAS = "pandas==3.1.1 \\\n" + HASH.format("a" * 64)
PYWINPTY = "pywinpty==3.1.2 ; os_name == 'nt' \\\n" + HASH.format("b" * 64)
PYTEST = "pytest==9.2.0 \\\n" + HASH.format("c" * 64)
SEGNO = "segno==1.6.6 \\\n" + HASH.format("d" * 64)


def finding(here):
    """A uv that finds two packages for learners, one more for serving and one for the tests, and `here` on any one kind of computer."""

    def uv(*words, doing=""):
        if "--universal" not in words:
            return here
        return PANDAS + PYWINPTY + ("" if "lab.in" in words else SEGNO) + (PYTEST if "test.in" in words else "")

    return uv


def test_a_text_falls_into_pins_with_their_hashes():
    assert blocks(PANDAS + PYWINPTY) == [PANDAS, PYWINPTY] and pins(PANDAS + PYWINPTY) == {"pandas==3.1.1", "pywinpty==3.1.2"}


def test_each_lock_holds_what_those_before_it_do_not(tmp_path):
    assert locked(finding("pandas==3.1.1\npytest==9.2.0\n"), tmp_path) == {"lab": PANDAS + PYWINPTY, "serve": SEGNO, "test": PYTEST}


def test_a_kind_of_computer_that_needs_something_else_is_named(tmp_path):
    with pytest.raises(SystemExit) as end:
        locked(finding("pandas==3.0.9\n"), tmp_path)
    assert str(end.value) == (
        "There is no such set of versions for x86_64-unknown-linux-gnu with Python 3.11. uv says:\nalso needed: pandas==3.0.9"
    )


def test_the_files_are_written_with_what_they_were_made_from_and_the_changes_are_told(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(renewing, "LOCKS", tmp_path)
    monkeypatch.setattr(renewing, "uv_in", lambda folder: finding(""))
    (tmp_path / "lock-lab.txt").write_text(PANDAS.replace("3.1.1", "3.1.0") + PYWINPTY)
    assert renew() == 0
    told = ["lock-lab.txt: 2 versions", "  - pandas==3.1.0", "  + pandas==3.1.1", "lock-serve.txt: 1 versions", "  + segno==1.6.6"]
    told += ["lock-test.txt: 1 versions", "  + pytest==9.2.0"]
    assert [line for line in capsys.readouterr().out.splitlines() if "lock-" in line or "==" in line] == told
    assert lock_files("test", locks=tmp_path) == [tmp_path / f"lock-{part}.txt" for part in ("lab", "serve", "test")]


def test_a_lock_of_other_requirements_is_not_used(tmp_path):
    for group in ("lab", "serve", "test"):
        (tmp_path / f"lock-{group}.txt").write_text("# Made from the requirements 0123\n" + PANDAS)
    assert lock_files("lab", locks=tmp_path) == lock_files("test", locks=tmp_path) == []
