"""What stood in the place of a new environment."""

import os

import pytest

from kit.bootstrap.environment.making import clear_away, move_aside


def test_what_is_moved_aside_frees_the_name_at_once_and_is_deleted_then(tmp_path):
    environment = tmp_path / ".venv"
    for content in ("older", "old"):
        environment.mkdir()
        (environment / content).touch()
        move_aside(environment)
    assert not environment.exists() and sorted(path.name for path in tmp_path.iterdir()) == [".venv.old-1", ".venv.old-2"]
    clear_away(environment)
    assert not list(tmp_path.iterdir())


@pytest.mark.skipif(os.name == "nt", reason="links as Linux and macOS make them")
def test_where_the_environment_is_a_link_what_it_leads_to_stays(tmp_path):
    environment, shared = tmp_path / ".venv", tmp_path / "shared"
    shared.mkdir()
    (shared / "theirs").touch()
    environment.symlink_to(shared)
    move_aside(environment)
    clear_away(environment)
    assert [path.name for path in tmp_path.iterdir()] == ["shared"] and (shared / "theirs").exists()
