"""A whole class tried at once: everybody signs in in the same second, runs lesson 00, then moves an edge every few seconds."""

import asyncio
import time
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from threading import Barrier

import numpy as np

from kit.classroom.hub import members
from kit.classroom.trial.learner import code_of, HttpLearner
from kit.classroom.watching import memory_of
from kit.coursework import LESSONS
from kit.records import Windows

EVERY_S, EDGES = 5.0, tuple(Windows.of_perturbation(11).seconds)  # where the gas was let in, in the run of lesson 00


@dataclass(frozen=True)
class ClassTrial:
    """What came of it. Seconds since everybody signed in: `pages` (each learner's page was there), `lessons` (each had run). `memory_mb` of all
    processes together; `moves`: seconds from each move to its answer."""

    pages: tuple
    lessons: tuple
    memory_mb: float
    moves: tuple

    def __str__(self):
        pages, lessons = (f"{np.median(each):.1f} s, the slowest {max(each):.1f} s" for each in (self.pages, self.lessons))
        answers = ", ".join(f"{1000 * np.percentile(self.moves, share):.1f} ms {name}" for share, name in ((50, "median"), (95, "95 %"), (100, "longest")))
        return (
            f"{len(self.pages)} learners signed in in the same second.\nLesson page there: median {pages}.\nLesson 00 run: median {lessons}.\n"
            f"All processes together: {self.memory_mb:,.0f} MB.\nEdge moved to answer, {len(self.moves)} moves: {answers}."
        )


def try_class(place, origin, tickets, rounds=3):
    """The `ClassTrial` of a class that is being served, for the learners with these tickets ({number: ticket}), `rounds` moves each."""
    start, ready, cells = Barrier(len(tickets)), Barrier(len(tickets)), code_of(LESSONS / "00-your-first-run.ipynb")
    memory = []

    def one(number, ticket):
        learner = HttpLearner(origin, number, ticket)
        start.wait()
        began = time.perf_counter()
        learner.sign_in()
        page = time.perf_counter() - began
        learner.begin()
        return page, *asyncio.run(work(learner, began))

    async def work(learner, began):
        await learner.connect()
        await learner.run(cells)
        ran = time.perf_counter() - began
        if ready.wait() == 0:
            memory.append(sum(map(memory_of, members(place))))
        await asyncio.sleep(EVERY_S * int(learner.number) / len(tickets))
        return ran, [await step(learner, count) for count in range(rounds)]

    async def step(learner, count):
        _, seconds = await learner.move(count + 1, [EDGES[0] + count, *EDGES[1:]])
        await asyncio.sleep(EVERY_S - seconds)
        return seconds

    with ThreadPoolExecutor(len(tickets)) as several:
        found = list(several.map(one, *zip(*tickets.items())))
    pages, lessons, moves = zip(*found)
    return ClassTrial(pages, lessons, memory[0], tuple(each for several in moves for each in several))
