"""Many files over several processes, or over the computers of a dask cluster."""

import os
import signal
import threading
from concurrent.futures import BrokenExecutor, CancelledError, ProcessPoolExecutor
from contextlib import contextmanager
from functools import partial
from multiprocessing import get_context, parent_process

TOGETHER = 8  # files that a process takes at once
AGAIN = "What was worked out is kept: type the same command again to go on."
KILLED = f"A process that read files was ended from outside, as a computer does that runs out of memory. {AGAIN} Then take fewer --workers."
LOST = f"The dask scheduler at {{}} was lost, or its workers ({{}}). {AGAIN}"


@contextmanager
def mapping(workers):
    """`map` in this process, or over so many others; rows come in the order of the files either way."""
    if workers == 1:
        yield map
        return
    executor = ProcessPoolExecutor(workers, get_context("spawn"), end_with_parent)
    try:
        yield partial(executor.map, chunksize=TOGETHER)
    except BrokenExecutor:
        raise SystemExit(KILLED) from None
    finally:
        executor.shutdown(cancel_futures=True)


@contextmanager
def dask_map(address):
    """`map` over the workers of a dask scheduler: each has the kit and sees the files under the same paths."""
    try:
        from distributed import Client, KilledWorker
        from distributed.comm import get_address_host_port
    except ImportError:
        raise SystemExit("--dask needs dask's package distributed in this Python: pip install distributed. Or use --workers.") from None
    try:
        get_address_host_port(address)  # first, as a client that can't read its address complains once more when it is thrown away
        client = Client(address, timeout="10s", set_as_default=False)
    except (OSError, ValueError) as problem:
        raise SystemExit(f"No dask scheduler answers at {address} ({problem}). Start it, and check the address.") from None
    with client, client.get_executor(pure=False) as executor:
        try:
            yield executor.map
        except (CancelledError, KilledWorker) as problem:
            raise SystemExit(LOST.format(address, problem)) from None


def end_with_parent():
    """A worker leaves Ctrl-C to its parent, and never outlives it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=lambda: (parent_process().join(), os._exit(1)), daemon=True).start()
