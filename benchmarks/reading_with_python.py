"""Reads the files of the reading benchmark with MNE, NumPy and SciPy, as far as they are there.

    python3 reading_with_python.py FOLDER
Prints what was read, with what, and the shortest of five times in seconds. Every reader is asked for
all samples as 64-bit numbers; a mapped file is copied, since else nothing is read.
"""

import os
import sys
import time


def shortest(read):
    best = float("inf")
    for _ in range(5):
        begun = time.perf_counter()
        read()
        best = min(best, time.perf_counter() - begun)
    return best


def readers(folder):
    def path(name):
        return os.path.join(folder, name)

    try:
        import numpy as np
    except ImportError:
        return
    yield "raw", "NumPy", lambda: np.fromfile(path("s.raw"), "<i2").astype(float)
    yield "wfdb", "NumPy", lambda: np.fromfile(path("s.dat"), "<i2").astype(float)
    yield "edf", "NumPy", lambda: np.fromfile(path("s.edf"), "<i2", offset=512).astype(float)
    yield "text", "NumPy", lambda: np.loadtxt(path("s.csv"))
    try:
        from scipy.io import loadmat, wavfile

        yield "wav", "SciPy", lambda: wavfile.read(path("s.wav"))[1].astype(float)
        yield "wav-float", "SciPy", lambda: wavfile.read(path("f.wav"))[1].astype(float)
        yield "mat", "SciPy", lambda: loadmat(path("s.mat"))["emg"].astype(float)
        yield "mat-packed", "SciPy", lambda: loadmat(path("p.mat"))["emg"].astype(float)
    except ImportError:
        pass
    try:
        import mne

        mne.set_log_level("ERROR")
        yield "edf", "MNE", lambda: mne.io.read_raw_edf(path("s.edf")).get_data()
        yield "bdf", "MNE", lambda: mne.io.read_raw_bdf(path("s.bdf")).get_data()
    except ImportError:
        pass


for what, by, read in readers(sys.argv[1]):
    try:
        print(what, by, "%.4f" % shortest(read))
    except Exception as e:  # a library that does not read it is no fault of the comparison
        print(what, by, "failed:", e, file=sys.stderr)
