"""Writes small WAV files with SciPy, as a table of their bytes and of the samples in them.

Usage: python3 make_wav_files.py > wav_files.csv
The first line of the table names the versions that made it. Samples stand frame after frame.
"""
import io
import sys

import numpy
import scipy
from scipy.io import wavfile

print("# made by make_wav_files.py, SciPy %s, NumPy %s, Python %s"
      % (scipy.__version__, numpy.__version__, sys.version.split()[0]))
print("type,rateHz,channels,bytes,samples")
random = numpy.random.default_rng(5)
for kind in ("u1", "<i2", ">i2", "<i4", ">i4", "<f4", ">f4", "<f8", ">f8"):
    for channels, rate in ((1, 48000), (3, 97656)):
        if numpy.dtype(kind).kind == "f":
            samples = random.normal(size=(4, channels)).astype(kind)
        else:
            limits = numpy.iinfo(kind)
            samples = random.integers(limits.min, limits.max, (4, channels), endpoint=True).astype(kind)
            samples[0, 0] = limits.min
            samples[1, 0] = limits.max
        out = io.BytesIO()
        wavfile.write(out, rate, samples if channels > 1 else samples[:, 0])
        print("%s,%d,%d,%s,%s" % (kind, rate, channels, out.getvalue().hex(),
                                  " ".join(repr(float(x)) for x in samples.ravel())))
