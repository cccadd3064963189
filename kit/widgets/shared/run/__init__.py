"""The picture of a run: its lines as bytes and in words, and the scripts that lay it out, paint it and take means of it."""

from kit.widgets.shared.run.picture import picture_of

__all__ = ["picture_of"]
