"""From bytes to text, and what holds no text."""

import codecs

import pytest

from kit.faults import IntakeFault
from kit.intake.given.source import decode
from kit.intake.given.source import Raw

TEXT = "Zeit;behandelt (°C)\n0;21,4\n1;21,5 µ\n"


@pytest.mark.parametrize(
    "data, remarks",
    [
        (TEXT.encode(), ()),
        (codecs.BOM_UTF8 + TEXT.encode(), ()),
        (codecs.BOM_UTF16_LE + TEXT.encode("utf-16-le"), ("Read the text as UTF-16.",)),
        (codecs.BOM_UTF16_BE + TEXT.encode("utf-16-be"), ("Read the text as UTF-16.",)),
        (codecs.BOM_UTF32_LE + TEXT.encode("utf-32-le"), ("Read the text as UTF-32.",)),
        (TEXT.encode("utf-16-le"), ("Read the text as UTF-16.",)),
        (TEXT.encode("utf-16-be"), ("Read the text as UTF-16.",)),
        (TEXT.encode("cp1252"), ("The text is not UTF-8: read it as Windows-1252.",)),
        (TEXT.encode("latin-1") + b"\x81", ("The text is not UTF-8: read it as Latin-1.",)),
    ],
)
def test_every_encoding_gives_the_same_text(data, remarks):
    text = decode(Raw("a.csv", data))
    assert text.utf8.decode().startswith(TEXT) and text.remarks == remarks


@pytest.mark.parametrize(
    "written, read",
    [
        (b"a,b\r\n1,2\r\n", b"a,b\r\n1,2\r\n"),
        (b"a,b\r1,2\r", b"a,b\n1,2\n"),
        (b"a,b\r\r\n1,2\r\r\n", b"a,b\n1,2\n"),
        (b"# x\n# y\ra,b\r\n1,2\r\n", b"# x\n# y\na,b\n1,2\n"),
    ],
)
def test_lines_end_alike_whatever_ended_them(written, read):
    assert decode(Raw("a.csv", written)).utf8 == read


EXPORT = "Export the run from the logger as CSV."
ODS = "This is an OpenDocument file, not a table of readings. Open it and save it as .xlsx or CSV."
EMPTY = "This file is empty. Export the run again, and look into the file before you close the logger."


@pytest.mark.parametrize(
    "data, message",
    [
        (b"", EMPTY),
        (b" \n\t\n", EMPTY),
        (bytes(range(256)) * 4, f"This file holds no text, so no table of readings. {EXPORT}"),
        (b"a,b\n1,2\0\n", f"This file holds no text, so no table of readings. {EXPORT}"),
        (codecs.BOM_UTF8 + b"a,b\n1,\0\n", f"This file holds no text, so no table of readings. {EXPORT}"),
        (b"\x89PNG\r\n\x1a\n", "This is a picture, not a table of readings. Export the readings themselves, as CSV."),
        (b"\xff\xd8\xff\xe0", "This is a picture, not a table of readings. Export the readings themselves, as CSV."),
        (b"%PDF-1.7", "This is a PDF, not a table of readings. Copy the table out of it into a text file, or export it as CSV."),
        (
            b"PK\x03\x04...",
            "This is a zip archive, not a table of readings. Unpack it and read the file inside, or read them all with read_class.",
        ),
        (b"PK\x03\x04" + b"\0" * 26 + b"mimetypeapplication/vnd.oasis.opendocument.spreadsheet", ODS),
        (
            b"\xd0\xcf\x11\xe0..",
            "This is an old binary office file, not a table of readings. Open it in a spreadsheet and save it as .xlsx or CSV.",
        ),
        (b"\x1f\x8b\x08", "This is a compressed file, not a table of readings. Unpack it first."),
    ],
)
def test_what_holds_no_table_is_named(data, message):
    with pytest.raises(IntakeFault) as fault:
        decode(Raw("a.csv", data))
    assert str(fault.value) == f"a.csv: {message}"


@pytest.mark.parametrize("start", ["<!DOCTYPE html>", " <html>", "<table>", "<?xml version='1.0'?>"])
def test_a_web_page_is_no_table(start):
    with pytest.raises(IntakeFault) as fault:
        decode(Raw("a.csv", f"{start}\n0,21.4,21.5\n".encode()))
    assert str(fault.value) == (
        "a.csv, line 1: This is a web page saved under another name. Go back and download or export the table itself, as CSV."
    )


def test_a_text_that_breaks_off_names_the_line():
    with pytest.raises(IntakeFault) as fault:
        decode(Raw("a.csv", codecs.BOM_UTF16_LE + TEXT.encode("utf-16-le")[:-1]))
    assert str(fault.value) == "a.csv, line 3: The text breaks off or is damaged here. Export the run again."
