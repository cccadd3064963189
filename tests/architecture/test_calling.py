"""Every public verb answers a call that can't fit with what it lacks and an example line; and the examples fit."""

import ast
from inspect import Parameter, isfunction, signature

import pytest

import kit
from kit.calling import EXAMPLES, FIT
from kit.faults import Fault

VERBS = [name for name in kit.__all__ if isfunction(getattr(kit, name))]


def said(verb, *given, **named):
    with pytest.raises(Fault) as caught:
        getattr(kit, verb)(*given, **named)
    return str(caught.value)


def test_there_is_an_example_for_each_verb_and_for_nothing_else():
    assert sorted(EXAMPLES) == sorted(VERBS)


@pytest.mark.parametrize("name", VERBS)
def test_the_example_fits_the_verb(name):
    called = next(node for node in ast.walk(ast.parse(EXAMPLES[name])) if isinstance(node, ast.Call) and node.func.id == name)
    signature(getattr(kit, name)).bind(*called.args, **{each.arg: each.value for each in called.keywords})


@pytest.mark.parametrize("name", VERBS)
def test_nothing_too_much_and_unknown_words_are_answered_with_the_example(name):
    parameters = signature(getattr(kit, name)).parameters.values()
    calls = [((None,) * 9, {})]
    calls += [((), {})] if any(each.default is Parameter.empty and each.kind in FIT for each in parameters) else []
    calls += [((), {"colour": 1})] if all(each.kind in FIT for each in parameters) else []
    for given, named in calls:
        assert said(name, *given, **named).endswith(f" For example: {EXAMPLES[name]}")


STEADY = "For example: check_steady(run, over_min=10, tolerance_c_per_min=0.01)"
COMPARE = "For example: compare(mine, reference, margin=0.3)"


@pytest.mark.parametrize(
    "verb, given, named, message",
    [
        ("check_steady", (1,), {}, f"check_steady also needs over_min= and tolerance_c_per_min=. {STEADY}"),
        ("check_steady", (1,), {"over": 3}, f"check_steady knows no over=. Did you mean over_min=? {STEADY}"),
        ("compare", (1, 2), {}, f"compare also needs margin=. {COMPARE}"),
        ("compare", (1, 2, 0.3), {}, f"compare takes mine and reference without a name before it; write all else as name=value. {COMPARE}"),
        ("compare", (1, 2), {"mine": 3, "margin": 1}, f"compare was given mine twice. {COMPARE}"),
        ("reference_run", (), {"x": 1}, "reference_run knows no x=. It takes nothing. For example: reference_run()"),
        ("suggest_windows", (), {}, "suggest_windows also needs run. For example: suggest_windows(run)"),
    ],
)
def test_the_sentence_says_what_is_wrong(verb, given, named, message):
    assert said(verb, *given, **named) == message


def test_a_type_error_inside_a_verb_keeps_its_traceback(monkeypatch):
    def broken(run):
        return run + "a"

    with pytest.raises(TypeError, match="unsupported"):
        kit.calling.answering(broken)(1)
    assert kit.calling.answering(Fault) is Fault


@pytest.mark.parametrize("verb", ["read_class", "follow", "follow_serial", "bring_in"])
def test_the_keywords_of_read_run_are_checked_wherever_they_are_handed_on(verb, tmp_path):
    message = f"{verb} knows no colour=. It takes those of read_run: treated, control, room, gas, light, time, unit, clock, decimal and sheet."
    assert said(verb, str(tmp_path), colour="red") == message
