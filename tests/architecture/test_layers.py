"""The layers go one way: numbers, charts, widgets, lessons. Read from the source, so that a step upwards fails by name."""

import ast
import importlib.util
from pathlib import Path

import pytest

KIT = Path(__file__).parents[2] / "kit"
ORDER = ["words", "physics", "statistics", "records", "intake", "examples", "live", "coursework", "analysis", "bench", "coverage"]
ORDER += ["charts", "widgets", "report", "sheets", "desk", "course", "jupyter", "classroom", "commands"]
# bootstrap needs nothing but the standard library (tested below), so every layer may stand on it.
HOME_OF = dict.fromkeys(("estimate", "faults", "words", "storage", "settings", "rounding", "units", "calling", "__init__", "bootstrap"), "words")
# Third-party packages that a layer may be the first to import (design: "may import"). Every later layer may, too.
FIRST_IMPORTED_BY = {
    "numpy": "words", "scipy": "physics", "statsmodels": "physics", "pandas": "records", "openpyxl": "intake", "serial": "live",
    "plotly": "charts", "ipywidgets": "widgets", "anywidget": "widgets", "traitlets": "widgets", "IPython": "widgets",
    "mistune": "report", "nbclient": "course", "nbformat": "course", "jupyter_server": "jupyter", "tornado": "jupyter", "jupyter_client": "classroom",
    "jupyterhub": "classroom", "psutil": "classroom", "segno": "classroom", "jupyterlab": "commands", "distributed": "commands",
}  # fmt: skip
BEFORE_THE_ENVIRONMENT = {"__main__", "bootstrap"}
MODULES = sorted(KIT.rglob("*.py"))


def layer(path):
    parts = path.relative_to(KIT).with_suffix("").parts
    return HOME_OF.get(parts[0], parts[0])


def imports(path):
    """(module, is at the top of the file) for every import, also those inside functions."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((alias.name, node in tree.body) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            yield node.module, node in tree.body
            yield from ((f"{node.module}.{alias.name}", node in tree.body) for alias in node.names if submodule(node.module, alias.name))


def submodule(module, name):
    parts = module.split(".")
    return parts[0] == "kit" and (KIT.parent.joinpath(*parts, f"{name}.py").exists() or KIT.parent.joinpath(*parts, name).is_dir())


def top_level(path):
    return path.relative_to(KIT).with_suffix("").parts[0]


@pytest.mark.parametrize("path", [p for p in MODULES if top_level(p) not in BEFORE_THE_ENVIRONMENT], ids=lambda p: str(p.relative_to(KIT)))
def test_imports_go_down(path):
    rank, wrong = ORDER.index(layer(path)), []
    for module, _ in imports(path):
        first, *rest = module.split(".")
        if first == "kit" and rest:
            above = ORDER.index(HOME_OF.get(rest[0], rest[0])) > rank
        else:
            above = first in FIRST_IMPORTED_BY and ORDER.index(FIRST_IMPORTED_BY[first]) > rank
        wrong += [module] * above
    assert not wrong, f"{path.name} ({layer(path)}) imports from a layer above it: {wrong}"


@pytest.mark.parametrize("path", [p for p in MODULES if top_level(p) in BEFORE_THE_ENVIRONMENT], ids=lambda p: str(p.relative_to(KIT)))
def test_the_command_line_starts_on_a_bare_python(path):
    import sys

    allowed = set(sys.stdlib_module_names) | {"kit"}
    wrong = [module for module, top in imports(path) if top and module.split(".")[0] not in allowed]
    wrong += [m for m, top in imports(path) if top and m.startswith("kit.") and m.split(".")[1] not in BEFORE_THE_ENVIRONMENT]
    assert not wrong, f"{path.name} needs {wrong} before the environment stands"


def rooms_of(path):
    """The folders of kit that a file lies in, the innermost first."""
    return [folder for folder in path.parents if folder != KIT and folder.is_relative_to(KIT)]


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(KIT)))
def test_a_room_is_entered_by_its_door(path):
    past = [f"{module}: {', '.join(names)}" for module, names in entered(path) if not door_of(module) or not set(names) <= door_of(module)]
    assert not past, f"{path.relative_to(KIT)} reaches past a door. Import from the room, and name it in the room's __all__: {past}"


def entered(path):
    """(module, names) of every import from a room of kit that `path` doesn't lie in."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module.startswith("kit.") and top_level(path) not in BEFORE_THE_ENVIRONMENT:
            target = KIT.parent.joinpath(*node.module.split("."))
            room = target if target.is_dir() else target.parent
            if room not in [KIT, KIT / "bootstrap", *rooms_of(path)]:
                yield node.module, [alias.name for alias in node.names]


def door_of(module):
    """The names in a room's `__all__`; nothing for a module inside a room."""
    door = KIT.parent.joinpath(*module.split("."), "__init__.py")
    return set(getattr(importlib.import_module(module), "__all__", ())) if door.exists() else set()


def test_no_two_rooms_need_each_other():
    needs = {}
    for path in MODULES:
        needs.setdefault(path.parent, set()).update(KIT.parent.joinpath(*module.split(".")) for module, _ in entered(path))
    both = [f"{room.relative_to(KIT)} and {other.relative_to(KIT)}" for room in needs for other in needs[room] if room in needs.get(other, ())]
    assert not both, f"rooms that need each other: {both}"


def test_only_known_packages_are_imported():
    import sys

    known = set(sys.stdlib_module_names) | set(FIRST_IMPORTED_BY) | {"kit"}
    strangers = {(path.name, module) for path in MODULES for module, _ in imports(path) if module.split(".")[0] not in known}
    assert not strangers


def test_statsmodels_loads_only_inside_functions():
    wrong = [path.name for path in MODULES for module, top in imports(path) if top and module.split(".")[0] == "statsmodels"]
    assert not wrong, "statsmodels takes a second to load: import it inside the function that needs it"


def test_no_import_rings():
    edges = {module_name(path): {m for m, top in imports(path) if top and m.startswith("kit.") and not holds(m, path)} for path in MODULES}
    done = set()

    def visit(module, trail):
        assert module not in trail, f"import ring: {' -> '.join([*trail, module])}"
        if module in done or module not in edges:
            return
        for target in edges[module]:
            visit(target, [*trail, module])
        done.add(module)

    for module in edges:
        visit(module, [])


def holds(module, path):
    """Is `module` a room that `path` lies in? A module may name its own room to reach a neighbour."""
    return KIT.parent.joinpath(*module.split(".")) in rooms_of(path)


def module_name(path):
    parts = path.relative_to(KIT.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def test_no_public_name_is_a_module():
    import kit

    clashes = [name for name in kit.__all__ if importlib.util.find_spec(f"kit.{name}")]
    assert not clashes


@pytest.mark.parametrize("name", __import__("kit").__all__)
def test_every_public_name_loads(name):
    import kit

    assert getattr(kit, name).__doc__
