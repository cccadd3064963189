"""`check --class`: a class of learners without browsers, served on this computer, timed and weighed."""

import argparse
from pathlib import Path
from tempfile import TemporaryDirectory

from kit.classroom import end_class, free_ports, give_tickets, listen_on, place_in, set_up_proxy, start_hub, start_proxy, try_class, why_together
from kit.faults import Fault


def try_served_class(words):
    """Print the `ClassTrial` of `--learners N` (30); its exit status."""
    parser = argparse.ArgumentParser(prog="check --class", description=__doc__)
    parser.add_argument("--learners", type=int, default=30, metavar="N")
    parser.add_argument("--rounds", type=int, default=3, metavar="N", help="moves of an edge for each learner")
    parser.add_argument("--together", action="store_true", help="started servers without a fence, as on computers that have none")
    options = parser.parse_args(list(words))
    set_up_proxy()
    with TemporaryDirectory(prefix="kit-class-", ignore_cleanup_errors=True) as folder:
        place = place_in(Path(folder) / "class", make=True)
        reason = "asked for" if options.together else why_together(place)
        tickets, _ = give_tickets(place, options.learners)
        try:
            (port,) = free_ports(1)
            listen_on(place, "127.0.0.1", port, reason is None)
            start_proxy(place)
            start_hub(place)
            print("Servers are forked and fenced." if reason is None else f"Servers are started, without a fence: {reason}", flush=True)
            print(try_class(place, f"http://127.0.0.1:{port}", tickets, options.rounds))
        except Fault as fault:
            raise SystemExit(str(fault)) from fault
        finally:
            end_class(place)
    return 0
