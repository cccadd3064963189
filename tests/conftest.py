"""What every test shares: the checkout's folders, and one BLAS thread (small matrices, many processes)."""

import os

for variable in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(variable, "1")
