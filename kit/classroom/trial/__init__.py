"""A whole class tried without browsers: what each learner does, and how long the class waits for it."""

from kit.classroom.trial.trial import ClassTrial, try_class

__all__ = ["ClassTrial", "try_class"]
