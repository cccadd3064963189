"""`lab`: JupyterLab on this computer alone, with settings of the kit's own; the learner's Jupyter is left as it is. Opens a lesson or the contents."""

import os
import secrets
import signal
import socket
import time
from pathlib import Path

from kit.bootstrap.handover import BEGAN
from kit.bootstrap.places import COURSE, own_folder
from kit.commands.leftovers import passing_folder, remove_halves
from kit.coursework import add_missing_lessons, course_named, LESSONS, TEACHERS
from kit.faults import Fault
from kit.jupyter import first_page, own_settings, SETTINGS

PORTS = range(8888, 8988)
LONGEST_NAME = "kernel-01234567-89ab-cdef-0123-456789abcdef-ipc-123456"  # of the files of a kernel


def lab(options):
    """Bring the learner's folder up to date and serve it until Ctrl-C."""
    lessons, work = lessons_and_work(options)
    work.mkdir(parents=True, exist_ok=True)
    remove_halves(work)
    page = first_page(work, add_missing_lessons(work, lessons), lessons)
    port = free_port(options.port)
    with passing_folder() as runtime:
        use_own_settings(work, runtime)
        serve(work, port, page, runtime, options)
    print(f"\nJupyterLab has ended. Your work is in {work}", flush=True)
    return 0


def lessons_and_work(options):
    """(the folder of the lessons, the folder to serve). With a course, the teacher's pages know its texts."""
    found = course_and_work(options) if options.course else (LESSONS, options.work)
    if options.teacher:
        return TEACHERS, (options.work or own_folder() / "my-class").absolute()
    return found[0], found[1].absolute()


def course_and_work(options):
    """(the folder of the course, the folder to serve): of a course's folder itself, so that it can be written; of its zip, which is unpacked
    among `my-courses` (or hidden in the folder that `--work` names), one for the learner's work. The course is open from now on."""
    from kit.course import unpack_course  # with all that charts need, which no other start waits for

    try:
        is_zip, home = not options.course.is_dir(), options.work / ".course" if options.work else own_folder() / "my-courses"
        course = (unpack_course(options.course, home) if is_zip else options.course).absolute()
        course_named(course)
    except Fault as fault:
        raise SystemExit(str(fault)) from fault
    os.environ[COURSE] = str(course)
    return course, options.work.absolute() if options.work else course / "my-work" if is_zip else course


def free_port(wanted=None):
    """The port to serve on: `wanted` or a fault; without it, the first of `PORTS` that nobody uses, said if it isn't the first."""
    if wanted is not None:
        if is_free(wanted):
            return wanted
        raise SystemExit(f"Port {wanted} is taken or not allowed. Choose another number after --port, or leave --port out.")
    port = next(filter(is_free, PORTS), None)
    if port is None:
        raise SystemExit(f"The ports {PORTS[0]} to {PORTS[-1]} are all taken. Name a free one: --port 9500")
    if port != PORTS[0]:
        print(f"Port {PORTS[0]} is taken, perhaps by another JupyterLab. Using {port}.", flush=True)
    return port


def is_free(port):
    with socket.socket() as probe:
        if os.name == "posix":  # elsewhere this option would allow a port that is in use
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind(("127.0.0.1", port))
        except OSError:
            return False
    return True


def use_own_settings(work, runtime):
    """Take every Jupyter setting of this computer's user out of the environment and put the kit's own in."""
    for name in [name for name in os.environ if name.startswith("JUPYTER")]:
        del os.environ[name]
    os.environ.update(own_settings(work, runtime))


def speaks(runtime):
    """How the server speaks to its kernels: where the system can, through files in the folder `runtime`, which only this person may open. A port
    is found free a moment before the kernel takes it; if another program was quicker, the kernel would die and start once more."""
    tried = Path(runtime) / LONGEST_NAME
    try:
        with socket.socket(socket.AF_UNIX) as probe:
            probe.bind(str(tried))
    except (AttributeError, OSError):  # Windows; a path too long for a socket, as often on macOS; a disk that holds none
        return "tcp"
    tried.unlink()
    return "ipc"


def serve(work, port, page, runtime, options):
    from jupyterlab.labapp import LabApp

    token = secrets.token_hex(16)
    server = LabApp.initialize_server(
        argv=[
            f"--ServerApp.port={port}",
            f"--ServerApp.port_retries={0 if options.port else len(PORTS)}",  # another start may have been quicker
            f"--ServerApp.root_dir={work}",
            f"--ServerApp.open_browser={options.browser}",
            f"--KernelManager.transport={speaks(runtime)}",
            f"--IdentityProvider.token={token}",
            f"--LabApp.default_url={page}",
            f"--LabApp.extra_labextensions_path={SETTINGS / 'labextensions'}",
            *options.rest,
        ]
    )
    # After what it waits for itself: from then on pages are answered, at the port that was free in the end.
    server.io_loop.add_callback(lambda: say_served(f"http://127.0.0.1:{server.port}{page}?token={token}"))
    end_cleanly(server)
    server.start()


def say_served(address):
    print(f"Twin Vessels is open at\n\n    {address}\n", flush=True)
    began = os.environ.get(BEGAN)
    after = f"Served {time.monotonic() - float(began):.1f} s after the start. " if began else ""
    print(f"{after}To end it, press Ctrl-C in this window.", flush=True)


def end_cleanly(server):
    """Let Ctrl-C, a closed window or a shutting computer end the server and its kernels, at once and without a question."""
    for name in ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK"):
        number = getattr(signal, name, None)
        if number and not (name == "SIGHUP" and signal.getsignal(number) == signal.SIG_IGN):  # started with nohup: stays
            signal.signal(number, lambda *_: server.stop(from_signal=True))
