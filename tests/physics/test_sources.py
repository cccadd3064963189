"""Every public formula of the physics says its unit and where it comes from."""

import importlib
import inspect
import pkgutil
import re

import pytest

from kit import physics

NOT_FORMULAS = {"checking", "constants", "gasdata"}
SOURCE = re.compile(r"\b(1[89]|20)\d\d\b|CODATA|[Dd]efinition|derived here|our algebra|no source|from memory|IAPWS|law\b")
UNIT = re.compile(
    r"\b(K|kelvin|°C|Pa|J|W|W/K|W/m2|kg/m3|µm|ppm|mol|[Mm]oles|[Gg]rams|mL|L|[Ll]itres|m|s|m2/s|share|[Ss]hares?|no unit|number)\b|°C"
)


def formulas():
    for module in pkgutil.walk_packages(physics.__path__, "kit.physics."):
        if module.name.split(".")[-1] not in NOT_FORMULAS:
            loaded = importlib.import_module(module.name)
            yield from (thing for name, thing in vars(loaded).items() if is_formula(name, thing, loaded))


def is_formula(name, thing, module):
    return inspect.isfunction(thing) and not name.startswith("_") and thing.__module__ == module.__name__


def lacks(function):
    text = function.__doc__ or ""
    return [what for what, pattern in (("source", SOURCE), ("unit", UNIT)) if not pattern.search(text)]


@pytest.mark.parametrize("function", list(formulas()), ids=lambda f: f"{f.__module__.split('.')[-1]}.{f.__name__}")
def test_a_public_formula_has_a_unit_and_a_source(function):
    assert not lacks(function)


def test_a_formula_without_them_would_be_found():
    def bare(x):
        """Half of it."""
        return x / 2

    assert lacks(bare) == ["source", "unit"]
    assert len(list(formulas())) > 30
