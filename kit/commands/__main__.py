"""Run a subcommand with the Python of the kit's environment: `python -m kit.commands lab`."""

import sys
from importlib import import_module

from kit.bootstrap.options import read


def main(words):
    options = read(words)
    return getattr(import_module(f"kit.commands.{options.command}"), options.command)(options)


sys.exit(main(sys.argv[1:]))
