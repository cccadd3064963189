"""The example configurations for a school's own hub: sound YAML and Python, marked as not run, with settings that JupyterHub has."""

from importlib import import_module

import pytest
import yaml
from traitlets.config import Config

from kit.bootstrap.places import KIT
from tests.classroom.serving import needs_hub

EXAMPLES = KIT / "classroom" / "examples"
# The classes whose settings can be looked up here; the spawners' own are in packages that nobody needs for the kit.
KNOWN = {"JupyterHub": "jupyterhub.app", "Authenticator": "jupyterhub.auth", "Spawner": "jupyterhub.spawner"}
ELSEWHERE = {"SystemdSpawner", "DockerSpawner"}


def settings_of(path):
    """The config that a hub would have after reading that file."""
    c = Config()
    exec(compile(path.read_text(encoding="utf-8"), path.name, "exec"), {"get_config": lambda: c})
    return c


def test_all_of_them_say_that_they_were_not_run():
    files = [path for path in EXAMPLES.iterdir() if path.is_file()]
    assert {path.name for path in files} >= {"README.md", "kubernetes-values.yaml", "systemd_config.py", "container_config.py", "Dockerfile"}
    assert all("Not run by us." in path.read_text(encoding="utf-8") for path in files if path.name != "README.md")
    assert "None of these files has been run by us." in (EXAMPLES / "README.md").read_text(encoding="utf-8")


@needs_hub
@pytest.mark.parametrize("name", ["systemd_config.py", "container_config.py"])
def test_a_hubs_settings_exist(name):
    config = settings_of(EXAMPLES / name)
    assert set(config) <= {*KNOWN, *ELSEWHERE} and config.JupyterHub.spawner_class in ("systemd", "docker")
    for section in config.keys() & KNOWN:
        known = getattr(import_module(KNOWN[section]), section).class_trait_names(config=True)
        assert set(config[section]) <= set(known), section


def test_the_values_for_kubernetes_are_sound_and_keep_work_and_limits():
    values = yaml.safe_load((EXAMPLES / "kubernetes-values.yaml").read_text(encoding="utf-8"))
    assert set(values) == {"hub", "singleuser", "cull", "proxy"} and values["cull"]["timeout"] >= 45 * 60
    assert values["singleuser"]["storage"]["capacity"] and values["singleuser"]["memory"]["limit"] and values["proxy"]["https"]["enabled"] is True


def test_every_file_is_told_of():
    text = (EXAMPLES / "README.md").read_text(encoding="utf-8")
    assert not [path.name for path in EXAMPLES.iterdir() if path.is_file() and path.name != "README.md" and f"`{path.name}`" not in text]
