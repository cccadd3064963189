"""What every test shares: one BLAS thread (small matrices, many processes), and properties that try the same cases every time, without a deadline."""

import os

from hypothesis import settings

for variable in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(variable, "1")

settings.register_profile("kit", deadline=None, derandomize=True)
settings.load_profile("kit")
