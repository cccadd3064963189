"""Undo and redo: the placings that were, in order, and the one that holds now."""

from dataclasses import dataclass, replace


@dataclass(frozen=True)
class History:
    """`now` is what holds; `past` and `future` are what undo and redo bring back, nearest last. Changes of one gesture count as one."""

    now: object
    past: tuple = ()
    future: tuple = ()
    gesture: object = None

    def record(self, placing, gesture):
        """The history after `placing` was made by `gesture`; a new change forgets what was undone."""
        if placing == self.now:
            return self
        past = self.past if gesture == self.gesture else (*self.past, self.now)
        return History(placing, past, (), gesture)

    def undone(self):
        """One gesture back; unchanged at the beginning."""
        if not self.past:
            return self
        return replace(self, now=self.past[-1], past=self.past[:-1], future=(*self.future, self.now), gesture=None)

    def redone(self):
        """One gesture forward; unchanged at the end."""
        if not self.future:
            return self
        return replace(self, now=self.future[-1], past=(*self.past, self.now), future=self.future[:-1], gesture=None)
