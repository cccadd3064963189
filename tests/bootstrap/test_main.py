"""The first file that any Python reads."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from kit.bootstrap.environment import refuse_the_impossible

KIT = Path(__file__).parents[2] / "kit"
PRETEND_OLD = "import sys, runpy; sys.version_info = (3, 8, 10); runpy.run_module('kit', run_name='__main__')"


@pytest.mark.parametrize("name", ["__init__.py", "__main__.py"])
def test_python_3_6_can_read_it(name):
    ast.parse((KIT / name).read_text(encoding="utf-8"), feature_version=(3, 6))


def test_an_old_python_says_what_is_needed():
    done = subprocess.run([sys.executable, "-c", PRETEND_OLD], cwd=KIT.parent, capture_output=True, text=True)
    assert (done.returncode, done.stderr) == (
        1,
        "Twin Vessels needs Python 3.11 or newer; this one is 3.8. Get a newer one from www.python.org, "
        "then type the command again with it, for example: python3.13 -m kit lab\n",
    )


def test_no_words_at_all_shows_what_can_be_typed():
    done = subprocess.run([sys.executable, "-m", "kit"], cwd=KIT.parent, capture_output=True, text=True)
    assert done.returncode == 2 and "python3 -m kit lab" in done.stdout


@pytest.mark.parametrize("module", ["venv", "ensurepip"])
def test_a_python_without_the_module_that_makes_environments_says_how_to_get_it(module, tmp_path, monkeypatch):
    monkeypatch.setattr("kit.bootstrap.environment.find_spec", lambda name: None if name == module else True)
    with pytest.raises(SystemExit) as end:
        refuse_the_impossible(tmp_path / ".venv")
    assert str(end.value) == (
        f"This Python lacks its module {module}. On Debian and Ubuntu type: sudo apt install python3-venv. "
        "Elsewhere get Python from www.python.org. Then type the same command again."
    )


def test_a_nearly_full_disk_is_told_before_anything_is_fetched(tmp_path, monkeypatch):
    from shutil import disk_usage

    monkeypatch.setattr("shutil.disk_usage", lambda place: disk_usage(place)._replace(free=340_000_000))
    with pytest.raises(SystemExit) as end:
        refuse_the_impossible(tmp_path / ".venv")
    assert str(end.value) == "The kit needs 1.5 GB on the disk and 0.3 GB are free. Make room, then type the same command again."


def test_an_environment_does_not_throw_itself_away():
    with pytest.raises(SystemExit) as end:
        refuse_the_impossible(Path(sys.prefix))
    assert str(end.value) == "The environment must be made anew, which its own Python can't do. Type: python3 -m kit lab"
