"""A name says one thing: no two types share one, and what a learner calls by name is called so nowhere else in the kit."""

import ast
from collections import Counter
from pathlib import Path

import kit

TREES = [ast.parse(path.read_text(encoding="utf-8")) for path in sorted(Path(kit.__file__).parent.rglob("*.py"))]


def names_of(kind):
    return Counter(node.name for tree in TREES for node in tree.body if isinstance(node, kind))


def test_a_type_has_a_name_of_its_own():
    types = names_of(ast.ClassDef)
    assert len(types) > 100 and [name for name, times in types.items() if times > 1] == []


def test_a_public_verb_has_a_name_of_its_own():
    verbs = names_of(ast.FunctionDef)
    assert [name for name in kit.HOME if verbs[name] > 1] == []
