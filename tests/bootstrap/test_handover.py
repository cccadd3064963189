"""Going on with the environment's Python."""

import subprocess
import sys

from kit.bootstrap.handover import surroundings, wait_for


def test_one_blas_thread_and_none_of_the_persons_own_python_settings(monkeypatch):
    for name in ("PYTHONPATH", "PYTHONHOME", "OPENBLAS_NUM_THREADS"):
        monkeypatch.setenv(name, "8")
    monkeypatch.setenv("HTTPS_PROXY", "http://proxy.school:3128")
    given = surroundings()
    assert (given["OPENBLAS_NUM_THREADS"], given["OMP_NUM_THREADS"], given["HTTPS_PROXY"]) == ("1", "1", "http://proxy.school:3128")
    assert "PYTHONPATH" not in given and "PYTHONHOME" not in given


def test_ctrl_c_is_left_to_the_process_that_knows_how_to_end():
    class Interrupted(subprocess.Popen):
        presses = 2

        def wait(self, timeout=None):
            if self.presses:
                self.presses -= 1
                raise KeyboardInterrupt
            return super().wait(timeout)

    assert wait_for(Interrupted([sys.executable, "-c", "raise SystemExit(7)"])) == 7
