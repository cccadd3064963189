"""The wheel that pip makes of this folder: whole, described as the standards ask, and a kit that works where it is installed."""

import hashlib
import json
import os
import subprocess
import sys
from base64 import urlsafe_b64encode
from email import message_from_bytes
from pathlib import Path
from zipfile import ZipFile

import pytest
from packaging.metadata import Metadata
from packaging.utils import parse_wheel_filename

from kit.bootstrap.packing import build_editable, build_wheel
from kit.coursework import learners_text
from kit.coursework.lessons.copies import PRESS
from tests.checkouts import HERE, OFFLINE

ABOUT = "twin_vessels-0.1.0.dist-info"


@pytest.fixture(scope="module")
def installed(tmp_path_factory):
    """A folder in which pip has put the kit, by itself and with no network; the packages it stands on are those of these tests."""
    folder = tmp_path_factory.mktemp("installed")
    words = ["install", "--quiet", "--no-deps", "--no-compile", "--target", folder / "packages", HERE]
    done = subprocess.run([sys.executable, "-m", "pip", *words], env=os.environ | OFFLINE, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stderr
    return folder


@pytest.fixture
def python(installed, tmp_path):
    """Run Python with that kit, in a folder of its own: its exit status, what it printed, and what it complained of."""

    def run(*words):
        told = os.environ | {"PYTHONPATH": str(installed / "packages")}
        done = subprocess.run([sys.executable, *words], cwd=tmp_path, env=told, capture_output=True, encoding="utf-8", timeout=120)
        return done.returncode, done.stdout, done.stderr

    return run


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    folder = tmp_path_factory.mktemp("wheel")
    with ZipFile(folder / build_wheel(folder)) as found:
        yield found


def test_it_holds_every_file_that_is_kept_and_nothing_else(wheel):
    """What git keeps in these folders; where this is no checkout, nothing can be compared."""
    listed = subprocess.run(["git", "ls-files", "kit", "lessons", "datasets"], cwd=HERE, capture_output=True, text=True)
    if listed.returncode:
        pytest.skip("no git here")
    moved = {"lessons": "kit/shipped/lessons", "datasets": "kit/shipped/datasets", "kit": "kit"}
    kept = [path for path in listed.stdout.splitlines() if (HERE / path).exists() and not Path(path).name.startswith(".")]
    wanted = {path.replace(path.split("/")[0], moved[path.split("/")[0]], 1) for path in kept if not (path.startswith("datasets") and path.endswith(".py"))}
    assert wanted - set(wheel.namelist()) == set()
    assert {name for name in wheel.namelist() if "__pycache__" in name or "/." in name or name.endswith(".part")} == set()


def test_it_is_described_as_the_standards_ask(wheel):
    """Core metadata 2.4 and the binary distribution format (packaging.python.org), read by the library that pip itself stands on."""
    name, version, _, tags = parse_wheel_filename(Path(wheel.filename).name)
    found = Metadata.from_email(wheel.read(f"{ABOUT}/METADATA"))
    assert (found.name, found.version) == ("twin-vessels", version) and name == "twin-vessels" and [str(tag) for tag in tags] == ["py3-none-any"]
    assert {"jupyterlab", "pandas", "anywidget"} <= {each.name for each in found.requires_dist if each.marker is None}
    extras = ("serve", "test")
    assert set(found.provides_extra) == set(extras)
    assert all(any(each.marker.evaluate({"extra": extra}) for extra in extras) for each in found.requires_dist if each.marker)
    assert str(found.requires_python) == ">=3.11" and found.license_expression == "BSD-3-Clause AND CC-BY-4.0"
    assert message_from_bytes(wheel.read(f"{ABOUT}/WHEEL"))["Root-Is-Purelib"] == "true"


def test_its_record_names_every_file_with_its_hash(wheel):
    rows = [line.rsplit(",", 2) for line in wheel.read(f"{ABOUT}/RECORD").decode().splitlines()]
    assert [row[0] for row in rows] == wheel.namelist()
    for name, told, size in rows[:-1]:
        held = wheel.read(name)
        assert (told, int(size)) == ("sha256=" + urlsafe_b64encode(hashlib.sha256(held).digest()).decode().rstrip("="), len(held))


def test_the_same_files_make_the_same_bytes(tmp_path):
    once, again = ((tmp_path / name) for name in ("once", "again"))
    once.mkdir(), again.mkdir()
    assert (once / build_wheel(once)).read_bytes() == (again / build_wheel(again)).read_bytes()


def test_an_editable_one_leads_back_to_this_folder(tmp_path):
    with ZipFile(tmp_path / build_editable(tmp_path)) as wheel:
        assert wheel.read("twin-vessels.pth").decode().strip() == str(HERE)


def test_an_installed_kit_finds_its_runs_lessons_and_settings(python, installed):
    told = "import kit; from kit import example_run, read_run; from kit.coursework import read_lesson; from kit.settings import class_settings\n"
    told += "from kit.report.version import kit_version\n"
    told += "print(kit.__file__, len(example_run('basalt').readings), read_lesson('00').title, class_settings().path, kit_version(), sep='\\n')"
    assert python("-c", told) == (
        0,
        f"{installed / 'packages' / 'kit' / '__init__.py'}\n646\nYour first run\n"
        f"{installed / 'packages' / 'kit' / 'shipped' / 'lessons' / 'teacher' / 'class-settings.toml'}\n0.1.0\n",
        "",
    )


def test_it_says_what_only_the_whole_folder_can_do(python):
    status, printed, complaint = python("-m", "kit", "prepare")
    assert (status, printed) == (1, "") and complaint.startswith("This kit was installed with pip: there is nothing to set up,")


def test_all_lessons_go_where_they_are_wanted_and_stay_as_they_are(python, tmp_path):
    lessons, mine = sorted((HERE / "lessons").glob("*.ipynb")), tmp_path / "here" / "contents.ipynb"
    mine.parent.mkdir()
    mine.write_text("mine")
    status, printed, _ = python("-m", "kit", "copy", "--all", "here")
    assert (status, printed) == (
        0,
        f"{len(lessons) - 1} lessons put into {mine.parent}. What it had already (1 lesson) stayed as it was. "
        "Open contents.ipynb there in your Jupyter; the first line says what to press.\n",
    )
    assert mine.read_text() == "mine" and sorted(path.name for path in mine.parent.iterdir()) == [path.name for path in lessons]
    for lesson in (each for each in lessons if each.name != mine.name):
        copied, ours = json.loads((mine.parent / lesson.name).read_text("utf-8")), json.loads(learners_text(lesson))
        first = "".join(copied["cells"][0]["source"])
        assert first.splitlines()[0] == PRESS and first.endswith("keeps your work.") and "by itself" not in first and "Start this" not in first
        assert (copied["cells"][1:], copied["cells"][0]["id"]) == (ours["cells"][1:], ours["cells"][0]["id"])


AS_A_LEARNER = """
import tempfile
import nbclient, nbformat
from kit.course.running import through_files
from kit.coursework import add_answer, Answer, answers_path

for card in ("00.warmer", "00.nocontrol"):
    add_answer(answers_path("00", "."), Answer(card, "skipped", {}))
book = nbformat.read("00-your-first-run.ipynb", 4)
book.cells.append(nbformat.v4.new_code_cell("import kit\\nfrom kit import make_report\\nmake_report()\\nprint(kit.__file__)"))
book.cells.append(nbformat.v4.new_code_cell("from kit import chart, example_run\\nchart(example_run('basalt'))"))
with tempfile.TemporaryDirectory(prefix="kit-tests-") as passing:
    nbclient.NotebookClient(book, timeout=60, kernel_name="python3", config=through_files(passing)).execute()
nbformat.write(book, "ran.ipynb")
"""


def test_a_copied_lesson_runs_with_it_in_a_jupyter_of_somebody_else(python, installed, tmp_path):
    """In a kernel that knows neither this folder nor the kit's server: cards and gates, the marker and its answer, charts, the report."""
    assert python("-m", "kit", "copy", "--all", ".")[0] == 0
    status, _, complaint = python("-c", AS_A_LEARNER)
    assert status == 0, complaint
    outputs = [each for cell in json.loads((tmp_path / "ran.ipynb").read_text("utf-8"))["cells"] for each in cell.get("outputs", ())]
    printed = "".join("".join(each["text"]) for each in outputs if each["output_type"] == "stream")
    assert printed == f"{installed / 'packages' / 'kit' / '__init__.py'}\n"
    drawn = {each.get("_anywidget_id", "").rsplit(".", 1)[-1] for each in widgets_of(tmp_path / "ran.ipynb")}
    assert {"Card", "WindowMarker", "EffectView"} <= drawn
    assert "application/vnd.plotly.v1+json" in {kind for each in outputs for kind in each.get("data", ())}
    assert [path.suffix for path in sorted((tmp_path / "reports").iterdir())] == [".html", ".zip"]


def widgets_of(path):
    """The state of every widget that a run notebook holds."""
    kept = json.loads(path.read_text("utf-8"))["metadata"]["widgets"]["application/vnd.jupyter.widget-state+json"]["state"]
    return [each["state"] for each in kept.values()]
