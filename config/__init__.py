"""The project."""

import os

# Read when numpy is first imported. The matrices here are small, and several requests run side by side:
# threads of the linear algebra only wait for each other (a survey of 60 points took seconds instead of 0.07 s).
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
