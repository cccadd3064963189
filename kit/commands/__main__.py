"""Run a subcommand with the Python of the kit's environment: `python -m kit.commands lab`."""

import os
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
    status = main(sys.argv[1:])
    sys.stdout.flush()
    sys.stderr.flush()
    # Not sys.exit: a thread of JupyterLab that still waits for a page, gone by now, would hold this window open for ever.
    os._exit(status)
