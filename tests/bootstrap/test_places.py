"""Paths as each system has them."""

from pathlib import PurePosixPath, PureWindowsPath

from kit.bootstrap.places import python_of


def test_linux_and_macos_keep_the_python_in_bin():
    assert python_of(PurePosixPath("/home of/kit/.venv"), windows=False) == PurePosixPath("/home of/kit/.venv/bin/python")


def test_windows_keeps_it_in_scripts():
    assert python_of(PureWindowsPath(r"C:\Schüler\kit\.venv"), windows=True) == PureWindowsPath(r"C:\Schüler\kit\.venv\Scripts\python.exe")
