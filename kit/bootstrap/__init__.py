"""From a bare Python to the kit's own environment: standard library only."""

import time

from kit.bootstrap.environment import ready
from kit.bootstrap.handover import hand_over
from kit.bootstrap.options import read
from kit.bootstrap.renewing import renew
from kit.bootstrap.troubles import in_plain_words


@in_plain_words
def main(words):
    """Do what was typed after `python3 -m kit`; the exit status. What needs packages is handed over to the environment's Python."""
    began, options = time.monotonic(), read(words)
    if options.command == "lock":
        return renew()
    python = ready("test" if options.command == "test" else "lab")
    if options.command != "prepare":
        return hand_over(python, words, began)
    print("The kit is set up. To open the lessons: python3 -m kit lab")
    return 0
