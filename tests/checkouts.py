"""A small copy of the kit in a folder of its own. Its set-up needs no network: it asks for pip, which every environment has."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).parents[1]
OFFLINE = {"PIP_NO_INDEX": "1", "PIP_CONFIG_FILE": os.devnull, "PIP_FIND_LINKS": ""}


def small_checkout(folder):
    """The kit and one lesson, in `folder`."""
    shutil.copytree(HERE / "kit", folder / "kit", ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "lessons").mkdir()
    shutil.copy(HERE / "lessons" / "00-your-first-run.ipynb", folder / "lessons")
    (folder / "requirements.txt").write_text("# Nothing that would have to be fetched.\npip\n")
    (folder / "pyproject.toml").write_text('[project.optional-dependencies]\ntest = ["pip>=1"]\n')
    return folder


def kit(folder, *words, python=sys.executable, **variables):
    """`python -m kit WORDS` in that folder: exit status, what it printed, and what it complained of."""
    told = {"cwd": folder, "env": os.environ | OFFLINE | variables, "capture_output": True, "encoding": "utf-8", "timeout": 300}
    done = subprocess.run([str(python), "-m", "kit", *words], **told)
    return done.returncode, done.stdout.replace(str(folder), "FOLDER"), done.stderr.replace(str(folder), "FOLDER")
