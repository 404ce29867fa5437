"""Writes WAV files with SciPy, and samples of the ones it is given, as a table.

Usage: python3 make_wav_table.py FOLDER-OF-WAV-FILES > wav_samples.csv
The first lines of the table name the versions that made it. Integers of SciPy stand at the upper end
of their type; shiftBits says by how much more than in the file.
"""
import glob
import os
import sys

import numpy
import scipy
from scipy.io import wavfile

print("# made by make_wav_table.py, SciPy %s, NumPy %s, Python %s"
      % (scipy.__version__, numpy.__version__, sys.version.split()[0]))
print("# files: the WAV test files of SciPy (BSD-3)")
print("file,rateHz,channels,frames,shiftBits,unsigned,frame,channel,value")
for path in sorted(glob.glob(os.path.join(sys.argv[1], "*.wav"))):
    try:
        rate, samples = wavfile.read(path)
    except ValueError:
        continue
    raw = open(path, "rb").read()
    at = raw.index(b"fmt ") + 8
    order = "big" if raw[:4] == b"RIFX" else "little"
    channels = int.from_bytes(raw[at + 2:at + 4], order)
    each = int.from_bytes(raw[at + 12:at + 14], order) // channels
    table = samples.reshape(len(samples), channels)
    floating = table.dtype.kind == "f"
    shift = 0 if floating else 8 * (table.dtype.itemsize - each)
    unsigned = int(table.dtype.kind == "u")
    frames = sorted(set(list(range(min(3, len(table)))) + [len(table) // 2, len(table) - 1]))
    for frame in frames:
        for channel in range(channels):
            print("%s,%d,%d,%d,%d,%d,%d,%d,%s" % (
                os.path.basename(path), rate, channels, len(table), shift, unsigned, frame, channel + 1,
                repr(float(table[frame, channel])) if floating else int(table[frame, channel])))
