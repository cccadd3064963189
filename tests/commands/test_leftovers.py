"""What a killed `lab` or kernel leaves behind, and that nothing else goes."""

import os
import subprocess
import sys
import time

import pytest

from kit.commands.leftovers import passing_folder, remove_halves

HOLDER = """
import sys
from kit.commands.leftovers import passing_folder
with passing_folder(sys.argv[1]) as folder:
    print(folder, flush=True)
    sys.stdin.read()
"""


@pytest.fixture
def other(tmp_path):
    """Another process with a folder of its own."""
    process = subprocess.Popen([sys.executable, "-c", HOLDER, str(tmp_path)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    process.folder = process.stdout.readline().strip()
    yield process
    process.kill()
    process.communicate()


def make_older(path):
    os.utime(path, (time.time() - 120, time.time() - 120))


def test_it_goes_with_its_block_and_another_processs_stays(tmp_path, other):
    with passing_folder(tmp_path) as folder:
        assert {str(path) for path in tmp_path.iterdir()} == {folder, other.folder}
    assert [str(path) for path in tmp_path.iterdir()] == [other.folder]


def test_that_of_a_killed_process_goes_at_the_next_start(tmp_path, other):
    other.kill()
    other.wait()
    with passing_folder(tmp_path) as folder:
        assert [str(path) for path in tmp_path.iterdir()] == [folder]


def test_one_that_another_window_is_making_stays_until_it_is_old(tmp_path):
    making = tmp_path / "kit-lab-abc"
    making.mkdir()
    with passing_folder(tmp_path):
        assert making.exists()
    make_older(making)
    with passing_folder(tmp_path):
        assert not making.exists()


@pytest.mark.skipif(os.name == "nt", reason="links as Linux and macOS make them")
def test_a_link_that_somebody_put_there_leads_to_no_harm(tmp_path):
    (tmp_path / "mine").mkdir()
    (tmp_path / "kit-lab-trap").symlink_to(tmp_path / "mine")
    make_older(tmp_path / "mine")
    with passing_folder(tmp_path):
        assert (tmp_path / "mine").is_dir()


def test_files_written_by_half_go_and_work_and_young_ones_stay(tmp_path):
    (tmp_path / "marks").mkdir()
    old, young = tmp_path / "marks" / ".run.json.k2j.part", tmp_path / ".00-answers.json.x1.part"
    mine = tmp_path / "half a story.part"
    for path in (old, young, mine):
        path.touch()
    make_older(old)
    make_older(mine)
    remove_halves(tmp_path)
    assert not old.exists() and young.exists() and mine.exists()
