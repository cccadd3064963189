"""A class on one computer: tickets, the hub and its pages, what the teacher sees; and a fence around each learner. JupyterHub is the engine."""

from kit.classroom.address import addresses
from kit.classroom.hub import end_class, free_ports, is_served, listen_on, members, out_at_once, proxy_command, set_up_proxy, start_hub, start_proxy
from kit.classroom.place import ClassPlace, place_in
from kit.classroom.servers import why_together
from kit.classroom.sheet import tickets_on, write_sheet
from kit.classroom.tickets import give_tickets, names_in_file, number_of, read_tickets, Register, withdraw_ticket
from kit.classroom.trial import ClassTrial, try_class
from kit.classroom.watching import seats, table_of

__all__ = [
    "addresses", "ClassPlace", "ClassTrial", "end_class", "free_ports", "give_tickets", "is_served", "listen_on", "members", "names_in_file", "number_of",
    "out_at_once", "place_in", "proxy_command", "read_tickets", "Register", "seats", "set_up_proxy", "start_hub", "start_proxy", "table_of", "tickets_on",
    "try_class", "why_together", "withdraw_ticket", "write_sheet",
]  # fmt: skip
