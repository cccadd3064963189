"""A time that a program puts before each line it shows or keeps: '10:00:02.120 -> 21.4,20.9' of a serial monitor, '1772359200: 21.4 20.9'."""

from dataclasses import replace

from kit.intake.given import MONTH_FIRST, PROMPT

PARTED = (b",", b";", b"\t")


def without_prompts(text):
    """The `Text` with the sign that parts its cells in the place of the arrow or colon behind each line's time."""
    rests = [line[match.end() :] for line in text.first_lines if (match := PROMPT.match(line))]
    sign = next((sign for sign in PARTED if sum(sign in rest for rest in rests) > len(rests) / 2), b" ")
    return replace(text, utf8=PROMPT.sub(rb"\1" + sign, text.utf8))


def with_whole_stamps(text):
    """The `Text` with the month, the day and the time that begin its lines in one cell, though blanks part cells."""
    return replace(text, utf8=MONTH_FIRST.sub(rb"\1_\2_\3", text.utf8))
