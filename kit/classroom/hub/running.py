"""The hub as a process: started, watched, found again, ended. All that it starts knows the class by an environment variable."""

import json
import os
import signal
import socket
import sqlite3
import subprocess
import sys
import time
import urllib.error
import urllib.request
from contextlib import closing
from functools import partial
from itertools import islice
from pathlib import Path
from random import SystemRandom

import psutil

from kit.bootstrap.handover import surroundings
from kit.bootstrap.places import KIT
from kit.classroom.hub.proxy import proxy_command
from kit.classroom.place import VARIABLE, write_private
from kit.classroom.servers import line_to
from kit.faults import Fault

CONFIG, PAGES_OF_PROXY = Path(__file__).with_name("hub_config.py"), Path(__file__).with_name("pages") / "proxy"
GIVEN_FROM = 32_768  # on Linux (ip(7): ip_local_port_range); other systems begin at 49152, as RFC 6335 has it
SOON_S, ENDS_S, LAST_LINES = 120.0, 20.0, 12
TAKEN = "Port {} is taken or not allowed. Choose another number after --port. Then the printed tickets must be printed again."
NOT_UP = "The hub did not start. Its last lines, in {}:\n{}"


def listen_on(place, address, port, apart):
    """Choose where the hub listens, and keep it, with whether learners' folders are to be kept `apart`. A Fault where the port can't be had."""
    if not is_free(address, port):
        raise Fault(TAKEN.format(port))
    hub, proxy = free_ports(2)
    write_private(place.state / "ports.json", json.dumps({"address": address, "port": port, "hub": hub, "proxy": proxy, "apart": apart}))


def listening(place):
    """What `listen_on` kept."""
    return json.loads((place.state / "ports.json").read_text())


def is_free(address, port):
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((address, port))
        except OSError:
            return False
    return True


def free_ports(count):
    """So many ports that nobody uses now, on this computer alone; below those that a system gives to whoever asks for any (`GIVEN_FROM`), or
    another program could have one before it is used."""
    tried = SystemRandom().sample(range(10_000, GIVEN_FROM), 1000)
    return list(islice(filter(partial(is_free, "127.0.0.1"), tried), count))


def started(place, command, log, **variables):
    """A process of the class: it knows the class's folder, and what it says goes into the file `log` of its state."""
    told = surroundings() | {VARIABLE: str(place.root), "PYTHONPATH": str(KIT.parent)} | variables
    with open(place.state / log, "a", opener=lambda path, flags: os.open(path, flags, 0o600)) as file:
        return subprocess.Popen(command, cwd=place.state, env=told, stdin=subprocess.DEVNULL, stdout=file, stderr=file, start_new_session=True)


def start_proxy(place):
    """Start the proxy, to which all learners' devices connect; its process. Where to send whom it hears from the hub."""
    where = listening(place)
    ways = {"ip": where["address"], "port": where["port"], "api-ip": "127.0.0.1", "api-port": where["proxy"]}
    ways |= {"error-path": PAGES_OF_PROXY, "log-level": "error"}
    words = [str(word) for name, value in ways.items() for word in (f"--{name}", value)]
    proxy = started(place, [*proxy_command(), *words], "proxy.log", CONFIGPROXY_AUTH_TOKEN=place.keys()["proxy"])
    if is_served(place):
        tell_routes(place)
    return proxy


def tell_routes(place):
    """Have the hub tell a new proxy where to send whom."""
    until = time.monotonic() + SOON_S
    while time.monotonic() < until:
        try:
            return ask_hub(place, "POST", "proxy", routes="all")
        except OSError:  # the proxy does not listen yet
            time.sleep(0.2)


def start_hub(place):
    """Start the hub of the class and wait until it answers through the proxy; its process. A Fault with its last words where it does not."""
    hub, log = started(place, [sys.executable, "-m", "jupyterhub", "--config", str(CONFIG)], "hub.log"), place.state / "hub.log"
    until = time.monotonic() + SOON_S
    while not answers(place):
        if hub.poll() is not None or time.monotonic() > until:
            hub.kill()
            raise Fault(NOT_UP.format(log, "\n".join(log.read_text(encoding="utf-8", errors="replace").splitlines()[-LAST_LINES:])))
        time.sleep(0.1)
    return hub


def answers(place):
    """Does the hub answer, by itself and through its proxy, and the process from which servers are forked, where there is one?"""
    where = listening(place)
    try:
        if where["apart"]:
            line_to(str(place.state)).close()
        for port in (where["hub"], where["port"]):
            urllib.request.urlopen(f"http://127.0.0.1:{port}/hub/api", timeout=5).close()
    except OSError:
        return False
    return True


def ask_hub(place, way, path, **content):
    """The hub's answer to the teacher's key: JSON, or None where it says nothing. OSError where it does not answer."""
    url = f"http://127.0.0.1:{listening(place)['hub']}/hub/api/{path}"
    headers = {"Authorization": f"token {place.keys()['teacher']}", "Content-Type": "application/json"}
    request = urllib.request.Request(url, json.dumps(content).encode() if content else None, headers, method=way)
    with urllib.request.urlopen(request, timeout=30) as reply:
        said = reply.read()
    return json.loads(said) if said else None


def members(place):
    """Every process of this class that is alive: hub, proxy, servers, kernels."""
    found = []
    for process in psutil.process_iter():
        try:
            if process.environ().get(VARIABLE) == str(place.root) and process.pid != os.getpid():
                found.append(process)
        except psutil.Error:
            continue
    return found


def is_served(place):
    """Is the class's hub alive?"""
    return any(str(CONFIG) in process_words(process) for process in members(place))


def process_words(process):
    try:
        return process.cmdline()
    except psutil.Error:
        return []


def out_at_once(place, number):
    """End the learner's server and forget that they are signed in."""
    if is_served(place):
        try:
            ask_hub(place, "DELETE", f"users/{number}")
        except urllib.error.HTTPError as problem:
            if problem.code != 404:  # nobody came with that number yet
                raise
    elif (place.state / "hub.sqlite").exists():
        with closing(sqlite3.connect(place.state / "hub.sqlite")) as book, book:
            book.execute("PRAGMA foreign_keys = ON")
            book.execute("DELETE FROM users WHERE name = ?", (number,))


def end_class(place):
    """End everything that belongs to the class: the servers first, so that each can keep what it holds."""
    processes = members(place)
    for number in (signal.SIGTERM, signal.SIGKILL):
        for process in processes:
            try:
                process.send_signal(number)
            except psutil.Error:
                continue
        psutil.wait_procs(processes, timeout=ENDS_S)
        processes = members(place)
