"""What the hub's configuration is told: that learners' folders are kept apart, or in one sentence why they are not, and then nothing is set."""

import sys
from pathlib import Path
from types import SimpleNamespace

import pytest
from traitlets.config import Config

from kit.bootstrap.places import KIT
from kit.classroom.servers import asking, calls, fence, forked
from tests.classroom.serving import needs_hub

REASON = fence.missing_fence() or calls.missing_filter()


def place_at(folder):
    return SimpleNamespace(state=Path(folder))


def test_without_a_fence_the_reason_is_told_and_nothing_is_set(monkeypatch, tmp_path):
    monkeypatch.setattr(fence.sys, "platform", "darwin")
    config = Config()
    reason = "Only Linux can keep learners' folders apart, and this computer runs something else."
    assert forked.use(config, place_at(tmp_path)) == forked.why_together(place_at(tmp_path)) == reason
    assert config == Config()


@pytest.mark.skipif(REASON is not None, reason=str(REASON))
def test_a_class_inside_a_folder_that_all_may_read_is_not_kept_apart():
    reason = f"The folder {KIT / 'state'} lies in {KIT}, which every learner must be able to read. Keep the class somewhere else."
    assert forked.use(Config(), place_at(KIT / "state")) == reason


@pytest.mark.skipif(REASON is not None, reason=str(REASON))
def test_the_teachers_environment_is_not_handed_on(monkeypatch, tmp_path):
    told = {}
    monkeypatch.setenv("SECRET", "of the teacher's shell")
    monkeypatch.setenv("TWIN_VESSELS_CLASS", str(tmp_path))
    monkeypatch.setattr(asking.subprocess, "Popen", lambda words, env, **_: told.update(env))
    asking.begin(str(tmp_path))
    del asking.STARTED[str(tmp_path)]
    assert told["TWIN_VESSELS_CLASS"] == str(tmp_path) and "SECRET" not in told and "PATH" in told


@pytest.mark.skipif(REASON is not None, reason=str(REASON))
@needs_hub
def test_where_it_can_the_spawner_is_set_and_the_process_begun(monkeypatch, tmp_path):
    begun, config = [], Config()
    monkeypatch.setattr(asking, "begin", begun.append)
    assert forked.use(config, place_at(tmp_path)) is None
    assert config.JupyterHub.spawner_class.__name__ == "ForkedSpawner" and config.ForkedSpawner.state_folder == str(tmp_path)
    assert begun == [str(tmp_path)] and "jupyterhub.singleuser" not in sys.modules
