"""A course of one's own: chosen lessons in a chosen order, open for writing; checked in sentences, and packed for learners."""

from kit.course.checking import can_hand_in, lacks_of, Lacks
from kit.course.making import add_lesson, new_course
from kit.course.packing import pack_course, unpack_course
from kit.course.running import failures_of

__all__ = ["add_lesson", "can_hand_in", "failures_of", "Lacks", "lacks_of", "new_course", "pack_course", "unpack_course"]
