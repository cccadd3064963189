"""What the disk or the person says no to, as sentences."""

import errno
import sys
from pathlib import Path

import pytest

from kit.bootstrap.troubles import in_plain_words, sentence

FULL = "This disk is full. Make room on it, then type the same command again."


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs /dev/full, a device on which no byte fits")
def test_a_full_disk_ends_with_a_sentence(capsys):
    @in_plain_words
    def main(words):
        with open("/dev/full", "w") as disk:
            disk.write("my work")

    assert main([]) == 1 and capsys.readouterr().err == f"{FULL}\n"


@pytest.mark.parametrize(
    "number, text",
    [
        (errno.ENOSPC, FULL),
        (errno.EROFS, "The kit may not write in kit. Move its folder to a place that is yours, such as your desktop, and start it there."),
        (
            errno.ENAMETOOLONG,
            "The computer refused a step ([Errno 36] said so: 'kit/file'). Put that right if you can, then type the same command again.",
        ),
    ],
)
def test_each_refusal_has_its_sentence(number, text):
    assert sentence(OSError(number, "said so", "kit/file")).replace(f"[Errno {errno.ENAMETOOLONG}]", "[Errno 36]") == text


def test_ctrl_c_is_no_traceback(capsys):
    @in_plain_words
    def main(words):
        raise KeyboardInterrupt

    assert main([]) == 130 and capsys.readouterr().err == "\nStopped. Type the same command again to go on.\n"


def test_letters_that_a_terminal_lacks_stop_nothing(tmp_path):
    import subprocess

    script = "from kit.bootstrap.troubles import in_plain_words\nin_plain_words(print)('räume 日本')"
    done = subprocess.run([sys.executable, "-c", script], env={"PYTHONIOENCODING": "ascii"}, capture_output=True, text=True)
    assert (done.returncode, done.stdout) == (0, "r?ume ??\n")
