"""`serve`: the lessons for a class, from this computer to the learners' own devices. The tickets, the hub, who is in, the end."""

import os
import shutil
import signal
import sys
import time
from pathlib import Path

from kit.bootstrap.places import COURSE
from kit.classroom import addresses, end_class, give_tickets, is_served, listen_on, names_in_file, number_of, out_at_once, place_in
from kit.classroom import read_tickets, seats, set_up_proxy, start_hub, start_proxy, table_of, tickets_on, why_together, withdraw_ticket
from kit.classroom import write_sheet
from kit.coursework import LESSONS
from kit.faults import Fault
from kit.words import counted

WINDOWS = (
    "A class can't be served from Windows itself. In WSL, the Linux that comes with Windows, this command is likely to work; that was not tried. "
    "Type in PowerShell: wsl --install"
)
ROOT = (
    "You are root: every learner's code could then change everything on this computer. Start the class as another user, one made for it. "
    "If you know what you do: --as-root"
)
TRUST = "{} Each learner's code could read and change the others' work, and everything of yours. Where you trust the class: --trusted"
TOGETHER = "You asked for servers that are not kept apart."
SERVED = "This class is being served already. To see who is in: python3 -m kit serve list. To end it: python3 -m kit serve stop"
NOT_HERE = "In {} a copy of the course is kept for the learners. Name the course that you made yourself, or its zip, which lie elsewhere."
RESTARTS, IN_S = 5, 60.0
AGAIN = {
    start_hub: "The hub, which lets learners in, ended by itself. Starting it again; who is in notices nothing.",
    start_proxy: "The proxy, which learners' devices connect to, ended by itself. Starting it again; their pages connect anew by themselves.",
}
HOPELESS = "Hub or proxy keep ending by themselves, so the class was ended. What they say is in hub.log and proxy.log in {}. The work is kept."


def serve(options):
    """Do what `options.action` says."""
    actions = {"start": start, "list": show, "stop": stop, "collect": bring, "withdraw": withdraw, "new-term": new_term}
    try:
        return actions[options.action](options)
    except Fault as fault:
        raise SystemExit(str(fault)) from fault


def start(options):
    """Serve until Ctrl-C; then everything of the class has ended, and the work is kept."""
    refuse_what_is_unwise(options)
    place = place_in(options.folder, make=True)
    if is_served(place):
        raise Fault(SERVED)
    end_class(place)  # what a killed start may have left
    stop_mark(place).unlink(missing_ok=True)
    apart = folders_apart(options, place)
    if apart is not True and not options.trusted:
        raise Fault(TRUST.format(apart))
    open_course(options, place)
    set_up_proxy()
    listen_on(place, "127.0.0.1" if options.only_here else "0.0.0.0", options.port, apart is True)
    address = f"http://{address_for(options)}:{options.port}"
    prepare_tickets(options, place, address, apart)
    heed_the_end()
    try:
        keep_up(place, address)
    except KeyboardInterrupt:
        print()
    finally:
        close(place)
    return 0


def refuse_what_is_unwise(options):
    if os.name == "nt":
        raise Fault(WINDOWS)
    if os.geteuid() == 0 and not options.as_root:
        raise Fault(ROOT)


def folders_apart(options, place):
    """True where learners' folders are kept apart, else a sentence with the reason."""
    return TOGETHER if options.together else why_together(place) or True


def open_course(options, place):
    """Let the hub and all it starts find the course that is served, if there is one: as learners get it, without the template and the cells for
    the teacher, in the class's own folder."""
    kept, own = place.state / "course.txt", place.root / "course"
    kept.unlink(missing_ok=True)
    if options.course:
        from kit.course import pack_course, unpack_course  # with charts and all, which no other action waits for

        if options.course.resolve().is_relative_to(own.resolve()):
            raise Fault(NOT_HERE.format(own))
        packed = pack_course(options.course, place.state) if options.course.is_dir() else options.course
        shutil.rmtree(own / packed.stem, ignore_errors=True)  # as it was served before: a lesson may have left the course
        os.environ[COURSE] = str(unpack_course(packed, own))
        kept.write_text(os.environ[COURSE], encoding="utf-8")


def address_for(options):
    """What learners type: the likeliest address, and the others said."""
    if options.only_here:
        return "127.0.0.1"
    found = addresses()
    if not found:
        raise Fault("This computer is in no network. Join the one that the class is in, or try it out alone: --only-here")
    if found[1:]:
        print(f"This computer has further addresses: {', '.join(found[1:])}. If learners can't connect, try these.", flush=True)
    return found[0]


def prepare_tickets(options, place, address, apart):
    """Tickets for all who have none yet, and the page to print, made anew where it changes."""
    names = names_in_file(options.names) if options.names else []
    known = read_tickets(place).given
    given, register = give_tickets(place, options.learners or len(names) or known or 30, names)
    printed, printed_for = tickets_on(place)
    lost, tickets = known and not printed_for, printed | given
    if tickets and write_sheet(place, address, tickets, apart):
        print(f"The page to print, with {len(tickets)} tickets, is {place.sheet}", flush=True)
        if printed_for not in ("", address):
            print(f"The address was {printed_for} when the tickets were made. Print them again, or tell the class the new one.", flush=True)
        elif printed and not given:
            print("It is made anew; the tickets on it are the same.", flush=True)
    else:
        there = "The page of tickets is no longer there; the tickets hold." if lost else f"The tickets are those of {place.sheet}."
        print(f"{len(register.numbers)} tickets are in use. {there}", flush=True)


def heed_the_end():
    """A closed window and a computer that shuts down end the class as Ctrl-C does; one that was started with nohup stays."""
    for number in (signal.SIGTERM, signal.SIGHUP):
        if signal.getsignal(number) != signal.SIG_IGN:
            signal.signal(number, lambda *_: sys.exit(0))


def keep_up(place, address):
    """Start proxy and hub, tell the address, and start again what should end by itself; until somebody says `serve stop`."""
    parts = {start: start(place) for start in (start_proxy, start_hub)}
    print(f"\nThe class is served at\n\n    {address}\n\nTo end it, press Ctrl-C in this window. To see who is in: python3 -m kit serve list", flush=True)
    ended = []
    while is_wanted(place):
        for begin, process in parts.items():
            if process.poll() is not None and is_wanted(place):
                ended = [each for each in ended if time.monotonic() - each < IN_S] + [time.monotonic()]
                if len(ended) > RESTARTS:
                    raise SystemExit(HOPELESS.format(place.state))
                print(AGAIN[begin], flush=True)
                parts[begin] = begin(place)
                print("It is back.", flush=True)
        time.sleep(0.2)


def close(place):
    print("Ending the class.", flush=True)
    end_class(place)
    print(f"The class has ended. The work is in {place.homes}", flush=True)


def is_wanted(place):
    """Did nobody say `serve stop`?"""
    return not stop_mark(place).exists()


def stop_mark(place):
    return place.state / "stop"


def show(options):
    """Print who is in."""
    place = place_in(options.folder)
    print("" if is_served(place) else "The class is not being served.\n", table_of(seats(place)), sep="")
    return 0


def stop(options):
    """End a class that another window serves, or what a killed one left."""
    place = place_in(options.folder)
    stop_mark(place).touch()
    close(place)
    return 0


def bring(options):
    """Take what the learners did to the desk, and say how far the class is, without names."""
    from kit.desk import bring_served, collect, predictions_of, progress_in  # as above

    place = place_in(options.folder)
    lessons = open_lessons(place)
    told = bring_served(place.homes, options.into)
    came = [number for number, why in told.items() if why is None]
    print(f"The work of {counted(len(came), 'learner')} is in {options.into}. To look at it: python3 -m kit lab --teacher")
    print(*(f"{number}: {why}" for number, why in told.items() if why), sep="\n")
    packages = collect(options.into, lessons).packages if came else ()
    print(progress_in(packages, lessons), *predictions_of(packages), sep="\n")
    return 0


def open_lessons(place):
    """The folder of the lessons that the class has: the kit's, or those of the course that was served last, which is open from now on."""
    kept = place.state / "course.txt"
    if not kept.exists():
        return LESSONS
    os.environ[COURSE] = kept.read_text(encoding="utf-8")
    return Path(os.environ[COURSE])


def withdraw(options):
    """Take a ticket back: whoever is in with it is out, the work stays."""
    place = place_in(options.folder)
    number = number_of(place, options.whom)
    ticket = withdraw_ticket(place, number, options.anew)
    out_at_once(place, number)
    print(f"The ticket of number {number} is withdrawn, and who was in with it is out. The work stays in {place.home(number)}")
    print(f"The new ticket of number {number}: {ticket}" if ticket else f"To give the number another ticket: python3 -m kit serve withdraw {number} --anew")
    return 0


def new_term(options):
    """New secrets and tickets at the next start; the learners' work stays."""
    place = place_in(options.folder)
    if is_served(place):
        raise Fault("The class is being served. End it first: python3 -m kit serve stop")
    place.forget()
    print(f"All tickets are withdrawn and nobody is signed in. The work stays in {place.homes}. The next start makes new tickets.")
    return 0
