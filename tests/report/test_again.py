"""A report opened again gives the same numbers to the last bit, and says so when it does not."""

import json
import zipfile
from tempfile import TemporaryDirectory

import pytest

from kit import Fault, make_report, open_report
from kit.course.running import through_files
from kit.settings import NAME
from tests.report.conftest import write


@pytest.fixture
def package(folder):
    write("08.margin", "decision", margin_c=0.3)
    return make_report().package


def changed(package, member, edit):
    """A copy of the package with one member changed."""
    copy = package.with_name("changed.zip")
    with zipfile.ZipFile(package) as old, zipfile.ZipFile(copy, "w") as new:
        for name in old.namelist():
            new.writestr(name, edit(old.read(name)) if name == member else old.read(name))
    return copy


def test_every_number_comes_out_the_same_bit_for_bit(package):
    again = open_report(package)
    assert again.same and str(again) == f"Report {package.name}: 1 run, and every number comes out the same."
    kept = json.loads(zipfile.ZipFile(package).read("report.json"))["runs"][0]["numbers"]
    assert set(kept) == {"effect", "curve", "comparison"}
    assert again.findings[0].of("effect").warming.value == kept["effect"]["warming"]["value"]


@pytest.mark.parametrize("made, opened", [("°C", "°F"), ("°F", "°C")])
def test_a_class_that_reads_another_unit_finds_the_same_numbers(folder, made, opened):
    write("08.margin", "decision", margin_c=0.3)
    (folder / NAME).write_text(f'[show]\ntemperature = "{made}"\n', encoding="utf-8")
    package = make_report().package
    first = str(open_report(package).findings[0].of("effect"))
    (folder / NAME).write_text(f'[show]\ntemperature = "{opened}"\n', encoding="utf-8")
    again = open_report(package)
    assert again.same and again.differing == ()
    assert made in first and opened in str(again.findings[0].of("effect"))


def test_another_verdict_shows_though_it_is_a_word(package):
    again = open_report(changed(package, "report.json", lambda content: content.replace(b'"verdict": "warmer"', b'"verdict": "cooler"')))
    assert again.differing == ("effect of basalt",)


def test_an_unpacked_folder_opens_as_well(package, tmp_path):
    zipfile.ZipFile(package).extractall(tmp_path / "unpacked")
    assert open_report(tmp_path / "unpacked").same


def test_another_mark_shows_as_another_number(package):
    def moved(content):
        record = json.loads(content)
        record["runs"][0]["windows"]["baseline"] = [9.5, 10.5]
        return json.dumps(record).encode()

    again = open_report(changed(package, "report.json", moved))
    assert not again.same and "effect of basalt" in again.differing and "a file or a mark was changed" in str(again)


def test_another_file_under_the_same_name_is_refused(package):
    with pytest.raises(Fault, match="is not the file that the report was made from"):
        open_report(changed(package, "raw/1-basalt.csv", lambda content: content.replace(b"21.4", b"21.5", 1)))


@pytest.mark.parametrize("content", [b"", b"[]", b'{"form": "else"}', b'{"form": "Twin Vessels report 1"}', b"\xff\xfe"])
def test_a_damaged_record_is_a_sentence(package, content):
    with pytest.raises(Fault, match="is no report of the kit"):
        open_report(changed(package, "report.json", lambda _: content))


def test_no_zip_is_a_sentence(tmp_path):
    (tmp_path / "else.zip").write_text("no zip")
    with pytest.raises(Fault, match="can't be opened as a zip file"):
        open_report(tmp_path / "else.zip")


def test_a_member_that_leads_out_of_the_folder_is_not_read(package, tmp_path):
    zipfile.ZipFile(package).extractall(tmp_path / "unpacked")
    record = json.loads((tmp_path / "unpacked/report.json").read_text(encoding="utf-8"))
    record["runs"][0]["file"] = "../../secret.csv"
    (tmp_path / "unpacked/report.json").write_text(json.dumps(record))
    with pytest.raises(Fault, match="leads out of the folder"):
        open_report(tmp_path / "unpacked")


def test_the_notebook_runs_in_a_fresh_kernel_and_gives_the_same_numbers(package, tmp_path):
    import nbformat
    from nbclient import NotebookClient

    zipfile.ZipFile(package).extractall(tmp_path / "unpacked")
    book = nbformat.read(tmp_path / "unpacked/report.ipynb", as_version=4)
    with TemporaryDirectory(prefix="kit-tests-") as passing:
        NotebookClient(book, timeout=60, resources={"metadata": {"path": str(tmp_path / "unpacked")}}, config=through_files(passing)).execute()
    shown = ["".join(output["data"].get("text/html", "")) for cell in book.cells for output in cell.get("outputs", []) if "data" in output]
    assert any("every number comes out the same" in each for each in shown) and len(shown) == 5
