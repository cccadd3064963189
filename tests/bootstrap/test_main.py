"""The first file that any Python reads."""

import ast
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from kit.bootstrap.environment.environment import ROOM_GB
from kit.bootstrap.environment.making import refuse_a_full_disk, refuse_the_impossible

KIT = Path(__file__).parents[2] / "kit"
PRETEND_OLD = "import sys, runpy; sys.version_info = (3, 8, 10); runpy.run_module('kit', run_name='__main__')"


FIRST_READ = ("__init__.py", "__main__.py")
PYTHON_2 = [word for word in ("python2.7", "python2") if shutil.which(word) and not subprocess.run([word, "-c", ""], stderr=subprocess.DEVNULL).returncode]
# What Python 3 has and 2.7 has not, as the node of its grammar that shows it.
NOT_IN_PYTHON_2 = (
    ast.JoinedStr, ast.AnnAssign, ast.NamedExpr, ast.Nonlocal, ast.YieldFrom, ast.Await, ast.AsyncFunctionDef, ast.AsyncFor, ast.AsyncWith,
    ast.Match, ast.MatMult, ast.TryStar, ast.Starred,
)  # fmt: skip


@pytest.mark.parametrize("name", FIRST_READ)
def test_python_3_6_can_read_it(name):
    ast.parse((KIT / name).read_text(encoding="utf-8"), feature_version=(3, 6))


@pytest.mark.parametrize("name", FIRST_READ)
def test_nothing_in_it_is_strange_to_python_2(name):
    """A part of the grammar, where there is no Python 2.7 to ask (Python 2.7 language reference, chapter 10)."""
    text = (KIT / name).read_text(encoding="ascii")
    nodes = list(ast.walk(ast.parse(text)))
    strange = [node for node in nodes if isinstance(node, NOT_IN_PYTHON_2)]
    strange += [node for node in nodes if isinstance(node, ast.arguments) and (node.kwonlyargs or node.posonlyargs)]
    strange += [node for node in nodes if isinstance(node, ast.arg) and node.annotation or isinstance(node, ast.Raise) and node.cause]
    strange += [node for node in nodes if isinstance(node, ast.FunctionDef) and node.returns or isinstance(node, ast.ClassDef) and node.keywords]
    strange += [node for node in nodes if isinstance(node, ast.Call) and getattr(node.func, "id", "") in ("print", "super")]
    assert not strange


@pytest.mark.skipif(not PYTHON_2, reason="no python2.7 on this computer")
def test_python_2_says_what_is_needed():
    done = subprocess.run([PYTHON_2[0], "-B", "-m", "kit", "lab"], cwd=KIT.parent, capture_output=True, text=True)
    assert (done.returncode, done.stderr.split(" Get")[0]) == (1, "Twin Vessels needs Python 3.11 or newer; this one is 2.7.")


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
    monkeypatch.setattr("kit.bootstrap.environment.making.find_spec", lambda name: None if name == module else True)
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
        refuse_a_full_disk(tmp_path, ROOM_GB["lab"])
    assert str(end.value) == "The kit needs 1.0 GB on the disk and 0.3 GB are free. Make room, then type the same command again."


def test_an_environment_does_not_throw_itself_away():
    with pytest.raises(SystemExit) as end:
        refuse_the_impossible(Path(sys.prefix))
    assert str(end.value) == "The environment must be made anew, which its own Python can't do. Type: python3 -m kit lab"
