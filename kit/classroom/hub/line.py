"""Thirty who come in the same second: their servers start a few at a time, the others wait in line and see how many are before them."""

import asyncio
import os

LOOK_S = 0.1


class WaitingLine:
    """Learners whose servers are to start, in the order they came. `at_once`: how many may start together."""

    def __init__(self, at_once=None):
        self.at_once = at_once or max(2, 2 * (os.cpu_count() or 1))
        self.waiting, self.starting = [], []

    async def turn(self, spawner):
        """Return when it is this one's turn. Nothing has to be given back: who has started, failed or left is seen to be gone."""
        self.waiting.append(spawner)
        try:
            while spawner.pending and not self.is_first(spawner):
                await asyncio.sleep(LOOK_S)
        finally:
            self.waiting.remove(spawner)
        self.starting.append(spawner)

    def is_first(self, spawner):
        self.starting = [each for each in self.starting if each.pending == "spawn"]
        self.waiting = [each for each in self.waiting if each.pending == "spawn" or each is spawner]
        return self.waiting[0] is spawner and len(self.starting) < self.at_once

    def before(self, user):
        """How many are before this user of the hub; 0 for one who is starting."""
        spawner = user and user.spawner
        return self.waiting.index(spawner) if spawner in self.waiting else 0
