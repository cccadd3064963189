"""The hub and the proxy before it: how they are set, started, watched and ended; who may in, and what each learner finds there."""

from kit.classroom.hub.proxy import proxy_command, set_up_proxy
from kit.classroom.hub.running import end_class, free_ports, is_served, listen_on, members, out_at_once, start_hub, start_proxy

__all__ = [
    "end_class", "free_ports", "is_served", "listen_on", "members", "out_at_once", "proxy_command", "set_up_proxy", "start_hub", "start_proxy",
]  # fmt: skip
