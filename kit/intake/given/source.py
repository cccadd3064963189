"""Taking a source in: a path, pasted text or bytes become named bytes, and these a text. The file itself is only ever read."""

import codecs
import re
import stat
from dataclasses import dataclass, replace
from difflib import get_close_matches
from functools import cached_property
from hashlib import sha256
from pathlib import Path

from kit.faults import IntakeFault

LARGEST_BYTES = 256 * 2**20
# Byte order marks, longest first: Unicode Standard, section 23.8.
MARKS = (
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
ZIP = b"PK\x03\x04"
# First bytes by which a file says what it is: the formats' own specifications.
KINDS = (
    (ZIP, "a zip archive", "Unpack it and read the file inside, or read them all with read_class."),
    (b"\xd0\xcf\x11\xe0", "an old binary office file", "Open it in a spreadsheet and save it as .xlsx or CSV."),
    (b"%PDF", "a PDF", "Copy the table out of it into a text file, or export it as CSV."),
    (b"\x89PNG", "a picture", "Export the readings themselves, as CSV."),
    (b"\xff\xd8\xff", "a picture", "Export the readings themselves, as CSV."),
    (b"\x1f\x8b", "a compressed file", "Unpack it first."),
)
HEAD_BYTES = 1 << 14
NAMED_VALUE = re.compile(rb"(?<![\w.])[A-Za-z][\w .]{0,30}[:=] ?[-+\d]")
CLOCK_IN_BRACKETS = re.compile(rb"\[[^\]\[{]{0,20}\d:\d\d")
# A time before what a program shows or keeps: '10:00:02.120 -> ' of a serial monitor, '1772359200: '.
PROMPT = re.compile(rb"^[ \t]*\[?(\d[\d:.,/TZ -]*?)\]?(?: ?[-=]> ?|: +(?=[-+.\d]|nan))", re.MULTILINE)
# A date without a year between blanks, before a number: 'Mar  1 10:00:02 21.4 20.9'.
MONTH_FIRST = re.compile(rb"^(?:[A-Z][a-z]{2},? )?([A-Z][a-z]{2}) {1,2}(\d{1,2}) (\d\d:\d\d:\d\d(?:\.\d+)?)(?= +[-+.\d][^,;\t]*$)", re.MULTILINE)
PAGE_STARTS = (b"<!doctype", b"<html", b"<table", b"<head", b"<?xml", b"<body")


@dataclass(frozen=True)
class Raw:
    """The bytes of a record with the name they go by. `sheet` names one sheet of a workbook."""

    name: str
    data: bytes
    sheet: str | None = None

    @property
    def zipped(self):
        """Do the bytes begin as those of a zip archive, which a workbook is?"""
        return self.data.startswith(ZIP)

    @cached_property
    def sha256(self):
        """SHA-256 of the bytes, in hexadecimal."""
        return sha256(self.data).hexdigest()


def take(source):
    """`Raw` bytes of `source`: a path ('book.xlsx#Sheet 2' names a sheet), `Raw` itself, or a text of several lines."""
    if isinstance(source, Raw):
        return source
    if isinstance(source, str) and "\n" in source:
        return Raw("pasted text", source.encode("utf-8", "replace"))
    path, sheet = path_and_sheet(source)
    return Raw(path.name, read_bytes(path), sheet)


def path_and_sheet(source):
    try:
        path = Path(source)
    except TypeError as problem:
        raise IntakeFault(
            f"Expected the path of a file, and was given {type(source).__name__}.", "Write it in quotes: read_run('run.csv')."
        ) from problem
    name, mark, sheet = path.name.partition("#")
    split = mark and not there(path)
    return (path.with_name(name), sheet) if split and name else (path, None)


def there(path):
    try:
        return path.exists()
    except (OSError, ValueError):
        return False


def read_bytes(path):
    """The bytes of a file. A fault for whatever is no file, may not be read, or is too large."""
    try:
        refuse_unreadable(path, path.stat())
        return path.read_bytes()
    except IntakeFault:
        raise
    except FileNotFoundError as problem:
        raise IntakeFault("There is no such file.", beside(path), file=path.name) from problem
    except PermissionError as problem:
        do = "Close other programs that hold it, or copy it to your own folder."
        raise IntakeFault("This file may not be read: permission denied.", do, file=path.name) from problem
    except (OSError, ValueError) as problem:
        name = "".join(sign for sign in path.name[:40] if sign.isprintable())
        do = "Copy it to your own folder, under a short name, and try that."
        raise IntakeFault("This file can't be opened.", do, file=name) from problem


def refuse_unreadable(path, status):
    if stat.S_ISDIR(status.st_mode):
        raise IntakeFault("This is a folder, not a file.", "Name one file in it, or read them all with read_class.", file=path.name)
    if not stat.S_ISREG(status.st_mode):
        raise IntakeFault("This is a device or a pipe, not a file.", "Save the record to a file first.", file=path.name)
    if status.st_size > LARGEST_BYTES:
        what = f"This file has {status.st_size / 2**20:,.0f} MiB; at most {LARGEST_BYTES // 2**20} are read."
        raise IntakeFault(what, "Save only the part with the run, or log less often.", file=path.name)


def beside(path):
    """What to do about a missing file: the nearest name in its folder, if one is near."""
    try:
        names = [each.name for each in path.parent.iterdir() if each.is_file()]
    except (OSError, ValueError):
        return "Check the folder's name."
    near = get_close_matches(path.name, names, n=1)
    return f"Did you mean '{near[0]}'?" if near else "Check the name, and the folder it is in."


@dataclass(frozen=True)
class Text:
    """The text of a record as UTF-8 bytes without a mark in front, its lines all ending alike, in a line feed or in both signs; what was
    decided on the way; of a workbook, the sheet's name; the headers of columns that no line holds."""

    file: str
    utf8: bytes
    remarks: tuple = ()
    sheet: str = ""
    headers: tuple = ()

    @property
    def labelled(self):
        """Do the first lines look as if they named each of their values, 'T1: 21.4 T2: 22.0' or JSON?"""
        head = self.utf8[:HEAD_BYTES].lstrip()
        lines = self.first_lines
        in_json = head[:1] == b"{" or head[:1] == b"[" and not CLOCK_IN_BRACKETS.match(head)
        return in_json or sum(len(NAMED_VALUE.findall(line)) >= 2 for line in lines) > len(lines) / 2

    @property
    def prompted(self):
        """Do most of the first lines begin with a time and an arrow or a colon behind it?"""
        return sum(map(bool, map(PROMPT.match, self.first_lines))) > len(self.first_lines) / 2

    @property
    def month_first(self):
        """Do most of the first lines begin with a month, a day and a time, and go on with blanks between their cells?"""
        return sum(map(bool, map(MONTH_FIRST.match, self.first_lines))) > len(self.first_lines) / 2

    @property
    def first_lines(self):
        return [line for line in self.utf8[:HEAD_BYTES].lstrip().splitlines()[:20] if line.strip()]


def decode(raw):
    """The `Text` in a `Raw`. An `IntakeFault` for an empty file, a web page, and for files that hold no text."""
    refuse_other_kinds(raw)
    mark, encoding = next(((mark, name) for mark, name in MARKS if raw.data.startswith(mark)), (b"", ""))
    text = recoded(raw, raw.data[len(mark) :], encoding or unmarked(raw))
    return replace(text, utf8=ending_alike(text.utf8))


def refuse_other_kinds(raw):
    start = raw.data[:512].lstrip()
    if not start and not raw.data.strip():
        raise IntakeFault("This file is empty.", "Export the run again, and look into the file before you close the logger.", file=raw.name)
    if b"mimetypeapplication/vnd.oasis" in raw.data[:100]:  # OpenDocument 1.3, part 2, section 3.3
        what = "This is an OpenDocument file, not a table of readings."
        raise IntakeFault(what, "Open it and save it as .xlsx or CSV.", file=raw.name)
    for first, kind, advice in KINDS:
        if raw.data.startswith(first):
            raise IntakeFault(f"This is {kind}, not a table of readings.", advice, file=raw.name)
    if start.lower().startswith(PAGE_STARTS):
        raise IntakeFault(
            "This is a web page saved under another name.",
            "Go back and download or export the table itself, as CSV.",
            file=raw.name,
            line=1,
        )


def unmarked(raw):
    """The encoding of bytes without a mark. Every second byte zero is UTF-16."""
    even, odd = raw.data[:4096:2].count(0), raw.data[1:4096:2].count(0)
    half = min(len(raw.data), 4096) / 2
    if odd > 0.4 * half and even < 0.1 * half:
        return "utf-16-le"
    if even > 0.4 * half and odd < 0.1 * half:
        return "utf-16-be"
    return "utf-8"


def ending_alike(utf8):
    """The text itself where its lines all end in a line feed, or all in a carriage return and a line feed; else with line feeds only."""
    returns = utf8.count(b"\r") if utf8.find(b"\r") >= 0 else 0
    if not returns or returns == utf8.count(b"\n") == utf8.count(b"\r\n"):
        return utf8
    return utf8.replace(b"\r\r\n", b"\n").replace(b"\r\n", b"\n").replace(b"\r", b"\n")


def refuse_zeros(file, data):
    if b"\0" in data:
        raise IntakeFault("This file holds no text, so no table of readings.", "Export the run from the logger as CSV.", file=file)


def recoded(raw, data, encoding):
    if encoding == "utf-8":
        return plain_text(raw, data)
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError as problem:
        line = data[: problem.start].decode(encoding, "replace").count("\n") + 1
        raise IntakeFault("The text breaks off or is damaged here.", "Export the run again.", file=raw.name, line=line) from problem
    utf8 = text.encode("utf-8", "replace")
    refuse_zeros(raw.name, utf8)
    return Text(raw.name, utf8, (f"Read the text as {encoding[:6].upper()}.",))


def plain_text(raw, data):
    """UTF-8 where it is valid; else Windows-1252 or Latin-1, which agree in every letter a table needs."""
    refuse_zeros(raw.name, data)
    if data.isascii():
        return Text(raw.name, data)
    try:
        data.decode("utf-8")
        return Text(raw.name, data)
    except UnicodeDecodeError:
        pass
    try:
        text, name = data.decode("cp1252"), "Windows-1252"
    except UnicodeDecodeError:
        text, name = data.decode("latin-1"), "Latin-1"
    return Text(raw.name, text.encode("utf-8"), (f"The text is not UTF-8: read it as {name}.",))
