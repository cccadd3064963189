"""Every cell below the header, as columns: block by block, quickly where a block is even, line by line where it is not."""

import csv
import io
import os
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import pandas as pd

from kit.faults import IntakeFault
from kit.intake.forms import MISSING, names_and_units, STRICT
from kit.intake.given import as_texts, Column, Table, Text
from kit.intake.text.gathering import add, examples_of, FEW_CUT, Gathered, Part, Piece
from kit.intake.text.lines import line_by_line, numbers_of, split
from kit.words import counted

SHARE_BYTES, BLOCK_BYTES = 1 << 21, 1 << 19  # what one thread parses at once, and what is read again if a line in it is uneven
QUICK_BYTES = 8192  # below, starting the quick parser takes longer than reading line by line


@dataclass(frozen=True)
class Block:
    """Some whole lines of a text: from one byte to another, and the number of the first line."""

    text: Text
    start: int
    end: int
    first: int

    @property
    def utf8(self):
        """The lines themselves."""
        return self.text.utf8[self.start : self.end]

    @cached_property
    def feeds(self):
        """How many line feeds it holds."""
        return how_many(b"\n", self.text.utf8, self.start, self.end)

    def parts(self, size):
        """The block in blocks of about `size` bytes; in one if a quoted cell may run over several lines."""
        utf8, place, line = self.text.utf8, self.start, self.first
        if utf8.find(b'"', self.start) >= 0:
            size = len(utf8)
        while place < self.end:
            end = min(utf8.find(b"\n", place + size) + 1 or self.end, self.end)
            block = Block(self.text, place, end, line)
            yield block
            place, line = end, line + block.feeds


def read_cells(text, layout):
    """The `Table` of a `Text`: columns of numbers (float64), of times (bytes) or of texts, each with its header.

    What is left out is said in `remarks`; a cell that is no number is kept as odd, to be refused if its column is used.
    """
    got = gathered(text, layout)
    refuse_few_short(got.left_out, len(got.lines), text.file, len(layout.kinds))
    for place, line, cell in cut_numbers(text, layout):
        add(got.parts[place].seen, "cut", line, cell)
    named, letters_said = names_and_units(layout.headers)
    heads = zip(layout.headers, named, layout.units, layout.kinds, got.parts, layout.samples)
    columns = [column(header, name, unit, settled(part, kind, got.lines, layout.decimal), first) for header, name, unit, kind, part, first in heads]
    left_said = (*map(sentence, got.left_out.items()), *unended(text, got.left_out))
    return Table(text.file, tuple(columns), got.lines, (*text.remarks, layout_said(text, layout), *letters_said, *left_said))


def gathered(text, layout):
    """All readings as `Gathered`, parsed on all processors (pandas lets other threads run meanwhile)."""
    shares = list(Block(text, start_of_line(text.utf8, layout.first), len(text.utf8), layout.first).parts(SHARE_BYTES))
    got = Gathered(layout.kinds, shares[-1].first - layout.first + shares[-1].feeds + 1)
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        over = pool.map if shares[1:] else map  # to start a thread takes longer than to parse a short file
        list(over(lambda share: got.put(share.first - layout.first, pieces_of(share, layout)), shares))
    return got.close()


def pieces_of(share, layout):
    """One piece where all lines are even; else several, so that only the uneven ones take time."""
    quick = quickly(share, layout)
    return [quick] if quick else [quickly(block, layout) or line_by_line(block, layout) for block in share.parts(BLOCK_BYTES)]


def cut_numbers(text, layout):
    """(column, line, cell) of the few numbers with fewer decimals than their column always writes: '21.' or '21.6' where it writes '21.60'."""
    fewest, start = min(filter(None, layout.decimals), default=0), start_of_line(text.utf8, layout.first)
    for depth in sorted({fewest, min(fewest, 1)} - {0}, reverse=True):
        found = ends_early(text.utf8, start, ord(layout.decimal), depth)
        if len(found) <= FEW_CUT:  # more are the way of another column
            lines = sorted({text.utf8.rfind(b"\n", 0, place) + 1 for place in found})
            return [cut for line in lines for cut in cut_in_line(text, layout, line)]
    return []


def ends_early(utf8, start, mark, depth):
    """Where decimal marks stand behind which a sign that is no figure comes within `depth` signs. At most a few are looked for."""
    found = []
    for place in range(start, len(utf8), BLOCK_BYTES):
        count = min(BLOCK_BYTES, len(utf8) - place)
        signs = np.frombuffer(utf8[place : place + count + depth].ljust(count + depth, b"\n"), np.uint8)
        other = signs - np.uint8(48) > 9
        early = np.logical_or.reduce([other[behind : count + behind] for behind in range(1, depth + 1)])
        found += (place + np.flatnonzero((signs[:count] == mark) & early)[: FEW_CUT + 1]).tolist()
        if len(found) > FEW_CUT:
            break
    return found


def cut_in_line(text, layout, start):
    """(column, line, cell) of each number in the line from `start` on that ends before its column's decimals do."""
    end = text.utf8.find(b"\n", start) + 1 or len(text.utf8)
    block = Block(text, start, end, 1 + how_many(b"\n", text.utf8, 0, start))
    for line, cells in split(block, layout):
        for at, (cell, many) in enumerate(zip(cells, layout.decimals)):
            decimals = cell.partition(layout.decimal)[2] if STRICT[layout.decimal].fullmatch(cell) and layout.decimal in cell else None
            if decimals is not None and len(decimals) < many:
                yield at, line, cell


def start_of_line(utf8, number):
    place = 0
    for _ in range(number - 1):
        place = utf8.find(b"\n", place) + 1
    return place


def how_many(sign, utf8, start=0, end=None):
    """How often a byte comes. Faster than bytes.count where it comes in every line."""
    end, count = len(utf8) if end is None else end, 0
    for place in range(start, end, BLOCK_BYTES):
        count += np.count_nonzero(np.frombuffer(utf8, np.uint8, min(BLOCK_BYTES, end - place), place) == ord(sign))
    return int(count)


def quickly(block, layout):
    """The `Piece` of a block by pandas' parser; None unless all lines have as many cells, each as its column wants it."""
    rows = even_rows(block, layout) if block.end - block.start > QUICK_BYTES else 0
    if not rows:
        return None
    kinds = {place: parsed_as(kind, length) for place, (kind, length) in enumerate(zip(layout.kinds, layout.longest))}
    plan = dict(header=None, names=range(len(kinds)), dtype=kinds, keep_default_na=False, na_values=list(MISSING), quoting=csv.QUOTE_NONE)
    try:
        frame = pd.read_csv(io.BytesIO(block.utf8), sep=layout.delimiter, decimal=layout.decimal, **plan)
    except (ValueError, pd.errors.ParserError):
        return None
    columns = [frame[place].to_numpy() for place in kinds]
    if len(frame) != rows or any(map(overflows, columns)):
        return None
    parts = [Part(each if each.dtype.kind in "fS" else as_texts(each)) for each in columns]
    return Piece(np.arange(block.first, block.first + rows, dtype=np.int32), parts, {})


def even_rows(block, layout):
    """How many lines there are, if each can have the same number of cells; else 0."""
    utf8, start, end = block.text.utf8, block.start, block.end
    rows = block.feeds + (utf8[end - 1 : end] != b"\n")
    returns = how_many(b"\r", utf8, start, end) if utf8.find(b"\r", start, end) >= 0 else 0
    plain = layout.delimiter in ",;\t" and returns in (0, block.feeds) and utf8.find(b'"', start, end) < 0
    return rows if plain and how_many(layout.delimiter.encode(), utf8, start, end) == rows * (len(layout.kinds) - 1) else 0


def parsed_as(kind, length):
    """Numbers as float64; times as bytes with one to spare, which take a quarter of the memory of texts; the rest as texts."""
    return float if kind == "n" else f"S{length + 1}" if kind == "t" else str


def overflows(values):
    """Is a number too large for float64, or a time longer than those in the head?"""
    if values.dtype.kind == "f":
        return np.isinf(values).any()
    return values.dtype.kind == "S" and values.view(np.uint8).reshape(len(values), -1)[:, -1].any()


def settled(part, kind, lines, decimal):
    """A column that was empty in the head is one of numbers if all its cells are."""
    if kind != "-":
        return part
    numbers = numbers_of(part.values.tolist(), lines, decimal)
    return part if numbers.odd("") else numbers


def column(header, named, unit_below, part, samples):
    """The `Column` of a header, the (name, unit) in it, the unit in the row below it, the cells, and the first few as written."""
    name, unit = named[0], named[1] or unit_below
    return Column(header, part.values, name=name, unit=part.unit(unit), odd=part.odd(unit), notes=part.notes(), samples=samples)


def layout_said(text, layout):
    return f"Read sheet '{text.sheet}' of the workbook; the readings begin in row {layout.first}." if text.sheet else str(layout)


def refuse_few_short(left_out, total, file, width):
    """A logger may leave out empty cells at the end of many lines, not of a few."""
    short = left_out.get("short")
    if short and (short.count < 3 or short.count < 0.1 * total):
        what = f"This line has fewer cells than the others, which have {width}."
        raise IntakeFault(what, "Complete it in a copy of the file.", file=file, line=short.examples[0][0])


def sentence(reason_and_tally):
    """What was left out and why, with the first few lines quoted."""
    reason, tally = reason_and_tally
    if reason == "short":
        return f"{counted(tally.count, 'line')} ended early, first line {tally.examples[0][0]}; the cells at the end count as missing."
    kind = {"note": "without readings", "summary": "with a summary, not readings", "cut": "that is cut off"}[reason]
    return f"Left out {counted(tally.count, 'line')} {kind}: {examples_of(tally)}."


def unended(text, left_out):
    whole = text.utf8.endswith(b"\n") or "cut" in left_out or text.sheet
    return () if whole else ("The last line has no line end: look whether it is whole.",)
