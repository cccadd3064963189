"""Learners' servers and kernels: forked from one process that has loaded all, each shut into its own folder and limits."""

from kit.classroom.servers.asking import line_to
from kit.classroom.servers.forked import use, why_together

__all__ = ["line_to", "use", "why_together"]
