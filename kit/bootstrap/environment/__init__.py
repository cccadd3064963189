"""The kit's own Python environment: made, filled by pip that is watched, noted; what went wrong there, in plain words."""

from kit.bootstrap.environment.environment import Interpreter, ready
from kit.bootstrap.environment.installing import let_pip
from kit.bootstrap.environment.making import make
from kit.bootstrap.environment.meanings import meaning
from kit.bootstrap.environment.working import free_within

__all__ = ["free_within", "Interpreter", "let_pip", "make", "meaning", "ready"]
