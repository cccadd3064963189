"""Following a logger: nothing received is lost, nothing is read twice from the disk, and a run so far is what `read_run` gives."""

import builtins
import os
import random
import shutil
import sys
import time
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.faults import Fault, IntakeFault
from kit.live.cleaning import without_damaged
from kit.live import filetail, following
from kit.live.following import file_so_far, port_so_far
from kit.live.inbox import Inbox, complete
from kit.intake.read import read_run

SIX = Path(__file__).parents[2] / "datasets" / "six-loggers"
HEAD = "Time (s),Treated (°C),Control (°C)\n"


def lines(first, last, start=0):
    return "".join(f"{10 * (k - start)},{21 + k / 100:.2f},{20.5 + k / 200:.3f}\n" for k in range(first, last))


def stamped(first, last):
    return "".join(f"2026-10-05T23:5{k // 60}:{k % 60:02d},{21 + k / 100:.2f},{20.5 + k / 200:.3f}\n" for k in range(first, last))


def followed(path, *steps, **named):
    """Every `SoFar` of a file while `steps` happen to it, one before each further look."""
    waiting = list(steps)

    def pause(_seconds):
        return not waiting or waiting.pop(0)()

    return list(file_so_far(path, pause=pause, folder=path.parent, **named))


def does(action, *given):
    """A step: the action, without its result."""
    return lambda: bool(action(*given)) and False


def append(path, text):
    with open(path, "a", encoding="utf-8") as file:
        file.write(text)


def test_a_growing_file_is_read_line_by_line_and_a_half_line_waits(tmp_path):
    path = tmp_path / "logger.csv"
    steps = [does(append, path, text) for text in (HEAD, lines(0, 3), "30,21.3", "0,20.650\n40,2")]
    states = followed(path, *steps)
    assert [len(each.run.readings) if each.run else 0 for each in states] == [0, 0, 3, 3, 4]
    assert states[0].trouble == "There is no file logger.csv yet. Start the logger, or check the name."
    assert states[1].question and states[-1].question is None and states[-1].trouble == ""
    assert states[-1].run.readings["treated"].iloc[-1] == 21.30
    assert (tmp_path / "received" / "logger.csv").read_bytes() == path.read_bytes()


@pytest.mark.parametrize("name", sorted(each.name for each in SIX.iterdir()))
def test_each_of_six_loggers_comes_out_as_if_read_whole(tmp_path, name):
    data, path = (SIX / name).read_bytes(), tmp_path / name
    keywords = {"treated": 2, "control": 3} if name.startswith("5") else {}

    def grow(end):
        path.write_bytes(data[:end])

    *_, last = followed(path, *(does(grow, end) for end in (7, 500, 1501, len(data))), **keywords)
    whole = read_run(SIX / name, **keywords)
    assert last.run.readings.equals(whole.readings) and last.run.remarks == whole.remarks


def test_what_is_shown_is_on_the_disk_first(tmp_path, monkeypatch):
    path, order = tmp_path / "logger.csv", []
    path.write_text(HEAD + lines(0, 5), encoding="utf-8")
    sync, see = os.fsync, following.look
    monkeypatch.setattr(os, "fsync", lambda handle: order.append("disk") or sync(handle))
    monkeypatch.setattr(following, "look", lambda *given, **named: order.append("read") or see(*given, **named))
    followed(path, does(append, path, lines(5, 6)))
    assert order == ["disk", "read", "disk", "read"]


def test_only_new_bytes_are_read_from_a_long_file(tmp_path, monkeypatch):
    path, taken = tmp_path / "logger.csv", []
    path.write_text(HEAD + lines(0, 5000), encoding="utf-8")

    class Counting:
        def __init__(self, file):
            self.file = file

        def __getattr__(self, name):
            return getattr(self.file, name)

        def __enter__(self):
            return self

        def __exit__(self, *_):
            self.file.close()

        def read(self, *most):
            taken.append(self.file.read(*most))
            return taken[-1]

    monkeypatch.setattr(filetail, "open", lambda *given: Counting(builtins.open(*given)), raising=False)
    new = lines(5000, 5002)
    *_, last = followed(path, does(append, path, new))
    assert len(last.run.readings) == 5002
    assert sum(map(len, taken)) == path.stat().st_size + filetail.CHECKED


def test_a_file_begun_anew_starts_another_record_and_the_earlier_one_is_kept(tmp_path):
    path = tmp_path / "logger.csv"
    first, second = HEAD + lines(0, 9), HEAD + lines(20, 24, start=20)
    path.write_text(first, encoding="utf-8")
    *_, last = followed(path, does(path.write_text, second, "utf-8"))
    assert len(last.run.readings) == 4
    assert last.events == (f"The logger began a new record at {last.at}. The earlier one is kept in received/logger.csv.",)
    assert [each.read_text("utf-8") for each in last.paths] == [first, second]


def test_a_new_file_whose_times_run_on_is_the_same_record(tmp_path):
    path, head = tmp_path / "logger.csv", "timestamp,treated_degC,control_degC\n"
    path.write_text(head + stamped(0, 30), encoding="utf-8")
    steps = [does(os.replace, path, tmp_path / "logger.1.csv"), does(path.write_text, head, "utf-8"), does(append, path, stamped(30, 45))]
    states = followed(path, *steps)
    assert [len(each.run.readings) for each in states] == [30, 30, 30, 45]
    assert states[1].trouble == "logger.csv is not there at present. What was read is kept. It goes on when the file is back."
    assert states[-1].run.remarks[-1] == f"The logger began anew at {states[-1].at} and its times run on: read as one record."
    assert np.array_equal(states[-1].run.readings.index, np.arange(45.0))


def test_a_file_written_again_with_more_in_it_just_goes_on(tmp_path):
    path, other = tmp_path / "logger.csv", tmp_path / "new"
    path.write_text(HEAD + lines(0, 5), encoding="utf-8")

    def rewrite():
        path.write_text(HEAD, encoding="utf-8")  # a look in the midst of writing sees the beginning only

    def replace():
        other.write_text(HEAD + lines(0, 8), encoding="utf-8")
        other.replace(path)

    states = followed(path, rewrite, replace)
    assert [len(each.run.readings) for each in states] == [5, 8] and states[-1].events == () and len(states[-1].paths) == 1


def test_lines_that_leave_something_open_do_not_take_the_run_away(tmp_path):
    path = tmp_path / "logger.csv"
    path.write_text(HEAD + lines(0, 5), encoding="utf-8")
    *_, last = followed(path, does(append, path, "20,21.0,20.0\n"))
    assert len(last.run.readings) == 5
    assert str(last.question).startswith("logger.csv, line 7: The clock goes back by 20 s here.")


def test_a_line_with_too_many_cells_is_left_out_and_said(tmp_path):
    path = tmp_path / "logger.csv"
    path.write_text(HEAD + lines(0, 5), encoding="utf-8")
    *_, last = followed(path, does(append, path, "50,21.0,20.0,7,7\n"))
    assert len(last.run.readings) == 5 and last.question is None
    assert last.events == ("Left out 1 damaged line, first '50,21.0,20.0,7,7'. The file in received holds them.",)


def test_a_second_start_goes_on_with_the_same_copy(tmp_path):
    path = tmp_path / "logger.csv"
    path.write_text(HEAD + lines(0, 5), encoding="utf-8")
    followed(path)
    append(path, lines(5, 8))
    *_, last = followed(path)
    assert [each.name for each in (tmp_path / "received").iterdir()] == ["logger.csv"] and len(last.run.readings) == 8


def test_a_folder_is_refused(tmp_path):
    with pytest.raises(Fault) as caught:
        followed(tmp_path)
    assert str(caught.value) == f"{tmp_path.name}: This is a folder, not a file. Name one file in it, or read them all with read_class."


def test_a_disk_that_refuses_is_said(tmp_path):
    (tmp_path / "received").write_text("in the way")
    (tmp_path / "logger.csv").write_text(HEAD)
    with pytest.raises(Fault) as caught:
        followed(tmp_path / "logger.csv")
    assert str(caught.value) == (
        "What the logger sent could not be written to the folder received (File exists). Make room there, then start again."
    )


@settings(deadline=None, max_examples=60)
@given(st.lists(st.integers(1, 40), max_size=12), st.sampled_from(["utf-8", "utf-16-le", "utf-16-be", "utf-16"]))
def test_whole_lines_are_found_wherever_the_bytes_are_cut(cuts, encoding):
    text = "t\ta\n1\tä\n\n2\tü\n3"
    data = text.encode(encoding)
    for cut in np.cumsum([0, *cuts]).clip(max=len(data)):
        whole = complete(data[:cut]).decode(encoding)
        assert text.startswith(whole) and (whole == "" or whole.endswith("\n"))
        assert data[:cut].decode(encoding, "ignore").count("\n") == whole.count("\n")


def test_an_inbox_never_touches_another_file_of_its_name(tmp_path):
    (tmp_path / "received").mkdir()
    (tmp_path / "received" / "a.csv").write_text("something else")
    inbox = Inbox("a.csv", tmp_path)
    inbox.add(b"new\n")
    inbox.add(b"", anew=True)
    inbox.add(b"third\n")
    assert [each.name for each in inbox.paths] == ["a-2.csv", "a-3.csv"]
    assert (tmp_path / "received" / "a.csv").read_text() == "something else" and inbox.paths[0].read_bytes() == b"new\n"


def test_two_that_follow_the_same_logger_do_not_mix_their_copies(tmp_path):
    one, other = Inbox("a.csv", tmp_path), Inbox("a.csv", tmp_path)
    one.add(b"1\n")
    other.add(b"1\n")
    other.add(b"2\n")
    one.add(b"2\n")
    assert one.paths != other.paths and [each.paths[0].read_bytes() for each in (one, other)] == [b"1\n2\n"] * 2


posix = pytest.mark.skipif(os.name != "posix", reason="needs a pair of pseudo-terminals")


class Cable:
    """A pair of pseudo-terminals: what is written here arrives at `port`, a link that stays while the logger is unplugged and back."""

    def __init__(self, folder):
        self.port = folder / "ttyLogger"
        self.plug()

    def plug(self):
        import pty
        import tty

        self.logger, self.end = pty.openpty()
        tty.setraw(self.end)
        self.port.unlink(missing_ok=True)
        self.port.symlink_to(os.ttyname(self.end))

    def send(self, text):
        os.write(self.logger, text.encode())

    def unplug(self):
        os.close(self.end)
        os.close(self.logger)


def heard(cable, *steps, **named):
    """Every `SoFar` of a port; a step happens before each further look, and a moment passes after it."""
    waiting = list(steps)

    def pause(_seconds):
        done = not waiting or waiting.pop(0)()
        time.sleep(0.02)
        return done

    return list(port_so_far(str(cable.port), pause=pause, folder=cable.port.parent, **named))


@posix
def test_a_logger_at_a_port_is_unplugged_and_back_and_loses_nothing(tmp_path):
    cable = Cable(tmp_path)
    head = "timestamp,treated_degC,control_degC\n"
    steps = [
        *(does(cable.send, text) for text in (head, stamped(0, 10), "2026-10-05T23:50:10,2")),
        does(cable.unplug),
        does(cable.plug),
        *(does(cable.send, text) for text in (head, stamped(12, 20))),
    ]
    states = heard(cable, *steps)
    away = next(each for each in states if each.trouble)
    assert away.trouble.startswith("Nothing comes from ")
    assert away.trouble.endswith(": it is unplugged. What came is kept. Plug it in again and it goes on.")
    assert len(away.run.readings) == 10 and "".join(each.read_text() for each in away.paths) == head + stamped(0, 10)
    last = states[-1]
    assert len(last.run.readings) == 18 and last.trouble == "" and last.run.readings.index[-1] == 19
    assert [each.read_text() for each in last.paths] == [head + stamped(0, 10), head + stamped(12, 20)]


KINDS_OF_LINES = {
    "commas": ("timestamp,treated_degC,control_degC\n", "{stamp},{treated:.2f},{control:.2f}\n"),
    "semicolons": ("Zeit (s);treated (°C);control (°C)\n", "{seconds};{treated:.2f};{control:.2f}\n"),
    "blanks": ("time_s treated_degC control_degC\n", "{seconds} {treated:.2f} {control:.2f}\n"),
    "names": ("", "time: {seconds} s, treated: {treated:.2f} C, control: {control:.2f} C\n"),
}


def noisy(line, dice, share=0.01):
    """A line as a bad cable hands it over: one byte in a hundred is another one, or has another one before it; its end is spared."""
    out = bytearray()
    for byte in line[:-1]:
        noise = [dice.randrange(256)] if dice.random() < share else []
        out += bytes(noise if noise and dice.random() < 0.5 else [*noise, byte])
    return bytes(out) + b"\n"


@posix
@pytest.mark.parametrize("kind", KINDS_OF_LINES)
def test_one_byte_of_garbage_in_a_hundred_takes_no_good_line_along(kind, tmp_path):
    head, form = KINDS_OF_LINES[kind]
    dice, cable, sent, good = random.Random(7), Cable(tmp_path), [head.encode()], []
    for n in range(300):
        values = {"seconds": 2 * n, "treated": 21 + n / 100, "control": 20.5 + n / 200}
        line = form.format(stamp=f"2026-10-05T10:{2 * n // 60:02d}:{2 * n % 60:02d}", **values).encode()
        line = line.replace(b".", b",") if kind == "semicolons" else line
        sent.append(noisy(line, dice))
        good += [values] if sent[-1] == line else []
    parts = [b"".join(sent[start : start + 50]) for start in range(0, 301, 50)]
    last = heard(cable, *(does(os.write, cable.logger, part) for part in parts))[-1]
    held = last.run.readings
    held.index = held.index + good[0]["seconds"] - held.index[np.isclose(held.treated, round(good[0]["treated"], 2))][0]
    assert 40 < 300 - len(good) < 150 and last.question is None
    for values in good:
        assert held.loc[values["seconds"]].tolist() == pytest.approx([round(values["treated"], 2), round(values["control"], 3)], abs=0.0051)


@pytest.mark.parametrize(
    "kind, damaged",
    [
        ("names", b"time: 0 s, treated: 2.1.00 C, control: 20.\xa850 C"),  # the first line, and no UTF-8
        ("semicolons", b"120;134.;20,80"),  # a point where all others have a comma
        ("commas", b"2026-10-05T10:00:40z,21.20,20.60"),  # a zone that no other time has
        ("commas", b"2026-10-05T10:00:40,21.2K,20.60"),  # a unit that no other number has
    ],
)
def test_a_damaged_line_that_could_stand_in_another_file_is_left_out(kind, damaged):
    head, form = KINDS_OF_LINES[kind]
    values = [{"stamp": f"2026-10-05T10:00:{2 * n:02d}", "seconds": 2 * n, "treated": 21 + n / 100, "control": 20.5 + n / 200} for n in range(1, 30)]
    good = [form.format(**each).encode().strip().replace(b".", b"," if kind == "semicolons" else b".") for each in values]
    lines = [damaged, *good] if kind == "names" else [head.encode().strip(), *good[:19], damaged, *good[20:]]
    assert without_damaged(b"\n".join([*lines, b""]))[1:] == (1, damaged[:30].decode("ascii", "replace"))


@posix
def test_a_logger_without_names_and_times_gets_both(tmp_path):
    cable = Cable(tmp_path)
    sent = [does(cable.send, text) for text in ("4,20.5\r\n", "21,4;20,5\r\n21,6;20,6\r\n", "21,8;20,7\r\n", "22,0;20,8\r\n")]
    *_, last = heard(cable, *sent, columns=("treated (°C)", "control (°C)"))
    assert last.run.readings["treated"].tolist() == [21.4, 21.6, 21.8, 22.0]
    assert last.run.readings.index[0] == 0 and (np.diff(last.run.readings.index) > 0).all()


@posix
def test_a_port_that_is_not_there_is_waited_for(tmp_path):
    cable = Cable(tmp_path)
    cable.unplug()
    states = heard(cable, does(cable.plug), does(cable.send, HEAD), does(cable.send, lines(0, 4)))
    assert states[0].trouble == (
        f"The port {cable.port} can't be opened. Check its name, plug the logger in, and close other programs that use it."
    )
    assert len(states[-1].run.readings) == 4 and states[-1].events == ()


def test_without_the_library_a_fault_says_how_to_get_it(monkeypatch, tmp_path):
    monkeypatch.setitem(sys.modules, "serial", None)
    with pytest.raises(Fault) as caught:
        next(port_so_far("COM3", folder=tmp_path))
    assert str(caught.value) == (
        "Reading from a serial port needs the package pyserial. It belongs to the kit: stop, and start again with python3 -m kit lab."
    )


def test_the_kernel_is_left_most_of_its_time(tmp_path, monkeypatch):
    path, rests = tmp_path / "logger.csv", []
    path.write_text(HEAD + lines(0, 5), encoding="utf-8")
    see = following.look
    monkeypatch.setattr(following, "look", lambda *given, **named: time.sleep(0.1) or see(*given, **named))
    list(file_so_far(path, every_s=0.01, pause=lambda seconds: rests.append(seconds) or True, folder=tmp_path))
    assert rests[0] >= 0.4


def test_following_leaves_the_loggers_own_file_alone(tmp_path):
    path = tmp_path / "logger.csv"
    shutil.copy(SIX / "1-comma-seconds.csv", path)
    before = path.read_bytes(), path.stat().st_mtime_ns
    followed(path)
    assert (path.read_bytes(), path.stat().st_mtime_ns) == before


def test_damaged_lines_are_left_out_and_said_and_reading_goes_on(tmp_path):
    good = [f"{2 * n},{21 + n / 100:.2f},{20.5 + n / 200:.2f}\n" for n in range(200)]
    dice = random.Random(7)
    lines, spoilt = [], 0
    for line in good:
        data = bytearray(line.encode())
        if dice.random() < 0.1:  # about one byte in a hundred
            data[dice.randrange(len(data) - 1)] = dice.choice((0, 7, 255, ord("#"), ord("x")))
            spoilt += 1
        lines.append(bytes(data))
    path = tmp_path / "logger.csv"
    path.write_bytes(b"time (s),treated (\xc2\xb0C),control (\xc2\xb0C)\n" + b"".join(lines))
    so_far = next(file_so_far(path, folder=tmp_path, pause=lambda _: True))
    whole = {line for line, raw in zip(good, lines) if line.encode() == raw}
    assert spoilt > 10 and so_far.run is not None and len(so_far.run.readings) == len(whole)
    assert so_far.events[-1].startswith(f"Left out {spoilt} damaged lines, first ") and so_far.events[-1] in so_far.run.remarks


def test_a_pipe_is_refused_at_once(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(IntakeFault, match="device or a pipe"):
        next(file_so_far(tmp_path / "pipe", folder=tmp_path, pause=lambda _: True))
