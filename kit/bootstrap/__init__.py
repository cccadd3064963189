"""From a bare Python to the kit's own environment: standard library only."""

import os
import sys
import time

from kit.bootstrap.environment import ready
from kit.bootstrap.handover import hand_over, ONE_THREAD
from kit.bootstrap.options import read
from kit.bootstrap.places import INSTALLED
from kit.bootstrap.renewing import renew
from kit.bootstrap.troubles import in_plain_words

OF_A_CHECKOUT = ("prepare", "test", "lock")


@in_plain_words
def main(words):
    """Do what was typed after `python3 -m kit`; the exit status. What needs packages is handed over to the environment's Python."""
    began, options = time.monotonic(), read(words)
    if INSTALLED:
        return of_an_installed_kit(options, words, began)
    if options.command == "lock":
        return renew()
    python = ready(group_for(options))
    if options.command != "prepare":
        return hand_over(python, words, began)
    print("The kit is set up. To open the lessons: python3 -m kit lab")
    return 0


def group_for(options):
    """The packages that the command needs."""
    if options.command in ("serve", "test"):
        return options.command
    return "serve" if getattr(options, "whole_class", False) else "lab"


def of_an_installed_kit(options, words, began):
    """Where pip has installed the kit, its environment stands: it is this Python's own."""
    if options.command in OF_A_CHECKOUT:
        raise SystemExit(
            f"This kit was installed with pip: there is nothing to set up, and its tests are not here. {options.command} needs the kit's whole "
            "folder, unpacked, as the README says under Start."
        )
    return hand_over(sys.executable, words, began, os.environ | ONE_THREAD)
