"""Who comes in the same second waits in line: few start at once, in the order they came, and whoever gives up makes room."""

import asyncio
from types import SimpleNamespace

from kit.classroom import place_in
from kit.classroom.hub.line import WaitingLine
from tests.classroom.serving import needs_hub


def learner(name):
    made = SimpleNamespace(name=name, pending="spawn")
    made.user = SimpleNamespace(spawner=made)
    return made


async def soon(line, *learners):
    """The turns of these, asked for in this order."""
    turns = [asyncio.ensure_future(line.turn(each)) for each in learners]
    await asyncio.sleep(0)
    return turns


def test_two_start_and_the_others_see_how_many_are_before_them():
    async def story():
        line, class_ = WaitingLine(at_once=2), [learner(name) for name in "abcde"]
        turns = await soon(line, *class_)
        await asyncio.wait(turns[:2], timeout=5)
        seen = [line.before(each.user) for each in class_]
        class_[0].pending = False  # a has started
        await asyncio.wait(turns[:3], timeout=5)
        class_[1].pending, class_[3].pending = None, None  # b failed, d went away while waiting
        await asyncio.wait(turns, timeout=5)
        return seen, [turn.done() for turn in turns], [each.name for each in line.starting], line.waiting

    seen, done, starting, waiting = asyncio.run(story())
    assert seen == [0, 0, 0, 1, 2] and all(done) and starting[-1] == "e" and waiting == []


def test_nobody_is_before_a_visitor_without_a_name():
    assert WaitingLine().before(None) == 0 and WaitingLine().at_once >= 2


@needs_hub
def test_the_hubs_pages_ask_the_line_in_which_learners_stand(tmp_path):
    """traitlets copies a config, and whatever it holds, before it is used."""
    from copy import deepcopy

    from traitlets.config import Config

    from kit.classroom.hub import hub

    place, config = place_in(tmp_path / "class", make=True), Config()
    hub.configure(config, place, {"address": "127.0.0.1", "port": 1, "hub": 2, "proxy": 3, "apart": False})
    used, waiting = deepcopy(config), learner("a")
    line = used.JupyterHub.template_vars["ahead"].__closure__[0].cell_contents
    line.waiting += [learner("b"), waiting]
    assert config.JupyterHub.template_vars["ahead"](waiting.user) == used.JupyterHub.template_vars["ahead"](waiting.user) == 1
