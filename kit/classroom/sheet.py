"""The page to print: a ticket for each learner to cut out, what to tell the class, what the teacher must know. One file that asks for nothing."""

import re
from html import escape
from pathlib import Path

from kit.classroom.place import write_private
from kit.classroom.tickets import digest_of, read_tickets

FORM = Path(__file__).with_name("sheet.html")
TICKET = re.compile(r'data-number="(\d+)" data-ticket="([a-z0-9-]+)"')
TOGETHER = (
    "Learners' folders are <strong>not kept apart</strong> on this computer: {} One learner's code can read and change another's work, and "
    "everything else that you may. Serve only a class that you trust."
)
APART = "Each learner's code can write in that learner's folder only, and read nothing of the others' or of yours."


def write_sheet(place, address, given, apart):
    """Write the page for these tickets ({number: ticket}) to `place.sheet`, for its owner alone; False where it says all that already.
    `apart`: True, or why folders are not separated."""
    names = read_tickets(place).names
    tickets = "\n".join(ticket_html(number, ticket, names.get(number, ""), address) for number, ticket in sorted(given.items()))
    parts = {"ADDRESS": escape(address), "TICKETS": tickets, "FOLDERS": APART if apart is True else TOGETHER.format(escape(apart))}
    text = re.sub(r"\[\[(\w+)\]\]", lambda found: parts[found[1]], FORM.read_text(encoding="utf-8"))
    if place.sheet.exists() and place.sheet.read_text(encoding="utf-8", errors="replace") == text:
        return False
    write_private(place.sheet, text)
    return True


def ticket_html(number, ticket, name, address):
    """One ticket. The code holds address and ticket, the ticket behind #, so that no server's log ever has it."""
    import segno  # with the packages for serving only

    code = segno.make(f"{address}/hub/ticket#{ticket}", error="m").svg_inline(scale=3, border=2, omitsize=True, svgclass=None, lineclass=None)
    holder = f"<b>{escape(name)}</b>, number {number}" if name else f"Number {number}"
    return (
        f'<li class="ticket" data-number="{number}" data-ticket="{ticket}"><div class="code" role="img" aria-label="QR code of ticket {number}">{code}</div>'
        f'<div><p class="holder">{holder}</p><p>Point a camera at the code, or type<br><span class="address">{escape(address)}</span></p>'
        f'<p>Your ticket<br><span class="word">{ticket}</span></p></div></li>'
    )


def tickets_on(place):
    """({number: ticket} on the page that is kept and still in use, the page's address). Both empty where there is no page any more."""
    try:
        text = place.sheet.read_text(encoding="utf-8")
    except OSError:
        return {}, ""
    numbers, address = read_tickets(place).numbers, re.search(r'data-address="([^"]*)"', text)
    found = {number: ticket for number, ticket in TICKET.findall(text) if numbers.get(digest_of(ticket)) == number}
    return found, address[1] if address else ""
