"""What pip's failures mean."""

import pytest

from kit.bootstrap.environment.meanings import NOT_AT_HOME, does_not_fit, meaning

AGAIN = "Then type the same command again."
FULL = f"This disk is full. Make room on it. {AGAIN}"
NO_WAY = "The packages could not be fetched: no way to the package index. Check the network (a school's may need its proxy named)."
CHANGED = "A package came cut short or changed, so it was not installed. Type the same command again. If it stops here again, try another network."
IN_USE = f"A file of the kit is in use or not yours. Close every window that runs it. {AGAIN}"
NOT_MADE = f"A package is not made for this Python on this computer. Get a 64-bit Python 3.11, 3.12 or 3.13 from www.python.org. {AGAIN}"
CUT_OFF = (
    "Something ended the program that installs the packages before it was done; a computer short of memory does that. "
    "Close other programs. Then type the same command again: it begins anew and mends what was left half done."
)
UNKNOWN = (
    "The packages could not be installed. Check the network. Then type the same command again. If it stops here again, show these "
    "lines to somebody who knows Python: ERROR: HTTP error 403 while getting it"
)
BROKE_OFF = f"The network broke off while the packages were fetched. Wait until it is back. {AGAIN}"


# What pip prints in these cases. Those with a version in brackets were seen, with an index on this computer that cut, reset or hung in the
# middle of a file; the others are from memory (common practice, no source).
@pytest.mark.parametrize(
    "said, sentence",
    [
        ("WARNING: Retrying (Retry(total=0)) after connection broken by 'NewConnectionError('<pip._vendor...>: Failed to es", f"{NO_WAY} {AGAIN}"),
        ("pip._vendor.urllib3.exceptions.ProtocolError: (\"Connection broken: ConnectionResetError(104, 'Connection r", BROKE_OFF),  # [23.2]
        ("pip._vendor.urllib3.exceptions.ReadTimeoutError: HTTPConnectionPool(host='127.0.0.1', port=9609): Read timed out.", BROKE_OFF),  # [23.2]
        ("ERROR: Wheel 'pandas' located at /tmp/pip-unpack-za3fd2q1/pandas-3.1.1-py3-none-any.whl is invalid.", BROKE_OFF),  # [23.2]
        ("error: incomplete-download", BROKE_OFF),  # [26.3]
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE. If you have updated the", CHANGED),  # [23.2]
        ("ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device", FULL),
        ("ERROR: Could not install packages due to an OSError: [WinError 112] There is not enough space on the disk", FULL),
        ("ERROR: Could not install packages due to an OSError: [WinError 5] Access is denied: 'c:\\\\kit\\\\.venv\\\\zmq.pyd'", IN_USE),
        ("ERROR: No matching distribution found for statsmodels<1,>=0.15", NOT_MADE),
        ("This Python keeps its packages in /usr, not in /kit/.venv. Nothing was installed.", NOT_AT_HOME),
        ("ERROR: HTTP error 403 while getting it", UNKNOWN),
        ("  Downloading pandas-3.1.1-cp311.whl (12.4 MB)", CUT_OFF),
    ],
)  # fmt: skip
def test_what_failures_mean(said, sentence):
    assert meaning(["Collecting statsmodels", said]) == sentence
    assert len(sentence.split()) <= 50


@pytest.mark.parametrize(
    "said, fits_not",
    [
        (["ERROR: No matching distribution found for pandas==3.1.1"], True),
        (["ERROR: In --require-hashes mode, all requirements must have their versions pinned with ==. These do not:"], True),
        (["WARNING: Retrying after 'NewConnectionError('", "ERROR: No matching distribution found for pandas==3.1.1"], False),
        (["ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE."], False),
        (["Collecting pandas==3.1.1"], False),
    ],
)
def test_only_a_lock_that_does_not_fit_this_computer_is_left_aside(said, fits_not):
    assert does_not_fit(said) is fits_not
