"""Who may in: whoever holds a ticket, under its number. Loaded by the hub."""

import asyncio
from pathlib import Path

from jupyterhub.auth import Authenticator
from jupyterhub.handlers.login import LoginHandler
from traitlets import Any

from kit.classroom.place import ClassPlace
from kit.classroom.tickets import digest_of, read_tickets

TRIES_AT_ONCE, WRONG_WAITS_S = 8, 2.0  # together at most 4 wrong tickets a second, from however many devices


class TicketAuthenticator(Authenticator):
    """Lets in by ticket alone. The register is read at each try, so that a ticket can be taken back while the class is at work."""

    folder = Any(help="The folder of the class.").tag(config=True)

    def __init__(self, **traits):
        super().__init__(**traits)
        self.doors = asyncio.Semaphore(TRIES_AT_ONCE)

    @property
    def register(self):
        return read_tickets(ClassPlace(Path(self.folder)))

    async def authenticate(self, handler, data):
        """The number of the ticket in `data`. A wrong one holds a door for a while, whoever brought it: by address one could be told apart only
        by what the asker says of itself."""
        async with self.doors:
            number = self.register.numbers.get(digest_of(data.get("password", "")))
            if number is None:
                await asyncio.sleep(WRONG_WAITS_S)
            return number

    async def refresh_user(self, user, handler=None):
        """Is there still a ticket for this number?"""
        return user.name in self.register.numbers.values()

    def get_handlers(self, app):
        """The page that a printed code leads to."""
        return [("/ticket", TicketHandler)]


class TicketHandler(LoginHandler):
    """The sign-in page also for a device on which somebody is signed in: the ticket says who comes now."""

    async def get(self):
        """The page. The ticket stands behind #, which a browser never sends, and is taken from there by the page."""
        self.finish(await self._render(username=""))
