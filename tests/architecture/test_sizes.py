"""Functions short, files of one idea: the figures that the project holds itself to."""

import ast
from pathlib import Path
from statistics import median

import pytest

KIT = Path(__file__).parents[2] / "kit"
MODULES = sorted(KIT.rglob("*.py"))
LONGEST_BODY, MEDIAN_BODY, LONGEST_FILE, MOST_REQUIRED, MOST_IN_A_ROOM = 30, 6, 250, 5, 15


def functions(path):
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [node for node in ast.walk(tree) if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef))]


def body_lines(function, lines):
    """Lines of a body without its docstring, blank lines and comments."""
    has_docstring = isinstance(function.body[0], ast.Expr) and isinstance(function.body[0].value, ast.Constant)
    start = function.body[0].end_lineno + 1 if has_docstring else function.body[0].lineno
    texts = (line.strip() for line in lines[start - 1 : function.end_lineno])
    return sum(1 for text in texts if text and not text.startswith("#"))


def required(function):
    arguments = function.args
    names = [each.arg for each in (*arguments.posonlyargs, *arguments.args)]
    mine = names[1:] if names[:1] in (["self"], ["cls"]) else names
    keyword_only = sum(default is None for default in arguments.kw_defaults)
    return len(mine) - len(arguments.defaults) + keyword_only


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(KIT)))
def test_files_and_functions_are_short(path):
    lines = path.read_text(encoding="utf-8").splitlines()
    assert len(lines) <= LONGEST_FILE, f"{path} has {len(lines)} lines: does it hold two ideas?"
    long = {each.name: body_lines(each, lines) for each in functions(path) if body_lines(each, lines) > LONGEST_BODY}
    assert not long, f"{path}: {long}"
    many = {each.name: required(each) for each in functions(path) if required(each) > MOST_REQUIRED}
    assert not many, f"{path}: too many required arguments: {many}"


def test_the_median_body_is_small():
    sizes = [body_lines(each, path.read_text(encoding="utf-8").splitlines()) for path in MODULES for each in functions(path)]
    assert median(sizes) <= MEDIAN_BODY


def test_scripts_in_the_browser_are_short_too():
    long = {path.name: count for path in KIT.rglob("*.js") if (count := len(path.read_text(encoding="utf-8").splitlines())) > LONGEST_FILE}
    assert not long


def test_a_room_has_no_more_files_than_can_be_taken_in():
    rooms = [KIT, *(path for path in KIT.rglob("*") if path.is_dir() and path.name != "__pycache__")]
    files = {str(room.relative_to(KIT.parent)): sum(each.is_file() for each in room.iterdir()) for room in rooms}
    crowded = {room: count for room, count in files.items() if count > MOST_IN_A_ROOM}
    assert files["kit"] > 1 and not crowded, f"More files than one idea holds: give these rooms sub-folders that say what is in them: {crowded}"
