"""The proxy: fetched once, whole or not at all; a network that is away is a sentence."""

import json
from pathlib import Path
from types import SimpleNamespace

import pytest

from kit.classroom.hub import proxy


@pytest.fixture
def npm(monkeypatch, tmp_path):
    """Stands in for npm: `calls` are the words that it was given, and it does what `does` says with the folder."""
    told = SimpleNamespace(calls=[], does=lambda folder: (folder / proxy.PROGRAM).parent.mkdir(parents=True) or (folder / proxy.PROGRAM).touch(), status=0)

    def run(words, **how):
        told.calls.append(words)
        told.does(Path(words[words.index("--prefix") + 1]))
        return SimpleNamespace(returncode=told.status, stderr="npm error network\n  away")

    monkeypatch.setattr(proxy.subprocess, "run", run)
    monkeypatch.setattr(proxy, "node", lambda: tmp_path / "node_wheel" / "bin" / "node")
    return told


def test_it_is_fetched_once_and_again_when_another_version_is_wanted(npm, tmp_path):
    proxy.set_up_proxy(tmp_path)
    proxy.set_up_proxy(tmp_path)
    assert len(npm.calls) == 1 and npm.calls[0][2:4] == ["ci", "--prefix"] and "--ignore-scripts" in npm.calls[0]
    (tmp_path / "class-proxy" / proxy.LOCK).write_text("{}")
    proxy.set_up_proxy(tmp_path)
    assert len(npm.calls) == 2 and [path.name for path in tmp_path.iterdir()] == ["class-proxy"]
    assert proxy.proxy_command(tmp_path)[1] == str(tmp_path / "class-proxy" / proxy.PROGRAM)


def test_a_link_to_the_environment_is_followed_for_npm_does_not(npm, tmp_path):
    (tmp_path / "environment").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "environment")
    assert proxy.own_folder(tmp_path / "link") == (tmp_path / "environment" / "class-proxy").resolve()


def test_without_a_network_it_says_so_and_leaves_nothing_half_done(npm, tmp_path):
    npm.does, npm.status = lambda folder: None, 1
    with pytest.raises(SystemExit) as end:
        proxy.set_up_proxy(tmp_path)
    assert str(end.value) == proxy.NOT_FETCHED.format("npm error network away") and not list(tmp_path.iterdir())


def test_the_lock_names_exact_versions_and_hashes_and_no_place():
    """package-lock.json, version 3: npm checks each file against `integrity` (subresource integrity, W3C)."""
    text = (proxy.WANTED / proxy.LOCK).read_text(encoding="utf-8")
    packages = {name: told for name, told in json.loads(text)["packages"].items() if name}
    assert packages["node_modules/configurable-http-proxy"]["version"] == "5.3.0" and '"resolved"' not in text
    assert all(told["integrity"].startswith("sha512-") and not told.get("hasInstallScript") for told in packages.values())
