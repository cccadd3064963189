"""Paths as each system has them."""

from pathlib import PurePosixPath, PureWindowsPath

from kit.bootstrap.places import python_of


def test_linux_and_macos_keep_the_python_in_bin():
    assert str(python_of(PurePosixPath("/the kit/.venv"), windows=False)) == "/the kit/.venv/bin/python"


def test_windows_keeps_it_in_scripts():
    environment = PureWindowsPath(r"C:\Schüler\the kit\.venv")
    assert str(python_of(environment, windows=True)) == r"C:\Schüler\the kit\.venv\Scripts\python.exe"
