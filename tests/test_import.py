"""`import kit` costs next to nothing: names load when they are used."""

import subprocess
import sys
import time
from statistics import median

import pytest

MOST_S = 0.05


def seconds(code):
    began = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True)
    return time.perf_counter() - began


@pytest.mark.alone
def test_importing_the_kit_takes_at_most_50_ms_over_a_bare_python():
    pairs = [(seconds("import kit"), seconds("pass")) for _ in range(15)]
    took = median(kit for kit, _ in pairs) - median(bare for _, bare in pairs)
    print(f"import kit: {1000 * took:.1f} ms over a bare Python")
    assert took <= MOST_S


def test_importing_the_kit_loads_no_package_but_its_own():
    code = "import sys; before = set(sys.modules); import kit; print(*{name.split('.')[0] for name in set(sys.modules) - before})"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True).stdout.split()
    assert "kit" in loaded and set(loaded) <= {"kit", *sys.stdlib_module_names}
