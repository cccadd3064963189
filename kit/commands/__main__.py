"""Run a subcommand with the Python of the kit's environment: `python -m kit.commands lab`."""

import sys
from importlib import import_module

from kit.bootstrap.options import read
from kit.bootstrap.troubles import in_plain_words


@in_plain_words
def main(words):
    """Do it; the exit status."""
    options = read(words)
    return getattr(import_module(f"kit.commands.{options.command}"), options.command)(options)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
