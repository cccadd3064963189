"""What an environment says of itself: a mark that the kit made it, there from its first moment, and a note of what it holds, from the last."""

import json
import os

MARK, NOTE = "made-by-the-kit", "kit-note.json"


def mark(environment):
    """Say that the kit makes this environment: what is marked may be thrown away and made anew."""
    (environment / MARK).touch()


def is_marked(environment):
    """Did the kit make it? Until November 2026 the note itself said so, as "ours"."""
    return (environment / MARK).exists() or read_note(environment).get("ours") is True


def read_note(environment):
    """`holds`: the fingerprint of each group's packages; `made_for`: the Python and the computer. Empty if there is none or it is damaged."""
    try:
        note = json.loads((environment / NOTE).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return note if isinstance(note, dict) and isinstance(note.get("holds", {}), dict) else {}


def write_note(environment, note):
    """Keep the note, whole or not at all."""
    half = environment / f"{NOTE}.part"
    with open(half, "w", encoding="utf-8") as file:
        json.dump(note, file)
        file.flush()
        os.fsync(file.fileno())
    os.replace(half, environment / NOTE)
