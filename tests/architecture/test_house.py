"""The house in order: what lies at the top, nothing fetched from the web, no debris, and documents that keep what they promise."""

import re
import subprocess
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
ALLOWED = {"README.md", "DEVELOPERS.md", "requirements.txt", "lessons", "kit", "datasets", "tests", "LICENSE", "pyproject.toml"}
LOADED = (
    r"""(?:src|href)\s*=\s*["']?https?://|@import\s+url|from\s+["']https?://|import\(["']https?://"""
    r"""|\bfetch\(|unpkg|jsdelivr|cdnjs|fonts\.g"""
)
TEXT = {".py", ".js", ".css", ".md", ".toml", ".json", ".ipynb", ".txt", ".html"}


def kept_files():
    """What git keeps; in a copy without git, everything but what .gitignore names and the dot-folders."""
    if (TOP / ".git").exists():
        listed = subprocess.run(["git", "ls-files", "-z"], cwd=TOP, capture_output=True, text=True, check=True).stdout
        return [TOP / name for name in listed.split("\0") if name and (TOP / name).exists()]
    skipped = {"my-work", "ci-output", "__pycache__"}
    every = (path for path in TOP.rglob("*") if path.is_file())
    return [path for path in every if not any(part in skipped or part.startswith(".") for part in path.relative_to(TOP).parts)]


FILES = kept_files()
SOURCES = [path for path in FILES if path.suffix in TEXT]


def test_the_top_level_holds_what_it_should_and_no_more():
    found = {path.relative_to(TOP).parts[0] for path in FILES}
    assert {name for name in found if not name.startswith(".")} == ALLOWED


@pytest.mark.parametrize("path", [path for path in SOURCES if path.parts[len(TOP.parts)] in ("kit", "lessons")], ids=lambda p: p.name)
def test_nothing_is_loaded_from_the_web(path):
    text = path.read_text(encoding="utf-8")
    loaded = re.findall(LOADED, text)
    assert not loaded


@pytest.mark.parametrize("path", [path for path in SOURCES if path.suffix in {".py", ".js", ".css"}], ids=lambda p: str(p.relative_to(TOP)))
def test_no_debris(path):
    marks = re.findall(r"\b(?:TODO|FIXME|XXX|HACK)\b|breakpoint\(\)|console\.log|# noqa|# type: ignore|\bdebugger\b", path.read_text(encoding="utf-8"))
    assert not marks or path == Path(__file__)


@pytest.mark.parametrize("path", [path for path in SOURCES if path.suffix == ".py"], ids=lambda p: str(p.relative_to(TOP)))
def test_lines_fit_a_screen(path):
    long = [number for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1) if len(line) > 160]
    assert not long


def test_no_file_names_the_machine_it_was_made_on():
    homes = re.compile(r"(?<![\w.])/(?:home|Users|root|work)/\w+")
    named = [str(path.relative_to(TOP)) for path in SOURCES if path != Path(__file__) and homes.search(path.read_text("utf-8", "replace"))]
    assert not named


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md"])
def test_links_to_files_lead_somewhere(name):
    text = (TOP / name).read_text(encoding="utf-8")
    targets = [target.split("#")[0] for target in re.findall(r"\]\(([^)\s]+)\)", text) if not target.startswith(("http", "#"))]
    assert targets and not [target for target in targets if not (TOP / target).exists()]


def test_the_readme_names_both_commands():
    text = (TOP / "README.md").read_text(encoding="utf-8")
    assert "python3 -m kit lab" in text and "python3 -m kit test" in text


def test_every_dependency_has_its_reason():
    reasons = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")
    wanted = re.findall(r"^([A-Za-z][\w-]+)[<>=]", (TOP / "requirements.txt").read_text(encoding="utf-8"), re.M)
    wanted += re.findall(r'^    "([A-Za-z][\w-]+)[<>=]', (TOP / "pyproject.toml").read_text(encoding="utf-8"), re.M)
    assert wanted and not [name for name in wanted if f"`{name}`" not in reasons]
