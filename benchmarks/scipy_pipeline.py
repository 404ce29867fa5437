"""The plain pipeline in SciPy: zero-phase filter, detect, align, mean consecutive difference.

It asks less than the chain does (one unit, one pair, no overlaps, no grades, no errors of timing).
Usage: scipy_pipeline.py FILE.edf...; prints one line per file and the seconds of all.
"""
import sys
import time

import numpy as np
from scipy.signal import butter, sosfiltfilt


def read(path):
    """First signal of an EDF file of ours: 16 bit, in uV."""
    with open(path, "rb") as file:
        head = file.read(256)
        signals = int(head[252:256])
        records, seconds = int(head[236:244]), float(head[244:252])
        fields = file.read(256 * signals)
        at = 0
        columns = []
        for width in (16, 80, 8, 8, 8, 8, 8, 80, 8, 32):
            columns.append([fields[at + width * i : at + width * (i + 1)] for i in range(signals)])
            at += width * signals
        counts = [int(c) for c in columns[8]]
        low, high, dlow, dhigh = (float(columns[c][0]) for c in (3, 4, 5, 6))
        raw = np.frombuffer(file.read(), dtype="<i2")[: records * sum(counts)]
        raw = raw.reshape(records, sum(counts))[:, : counts[0]].ravel()
    return (raw - dlow) * (high - low) / (dhigh - dlow) + low, counts[0] / seconds


def jitter(x, rate):
    sos = np.vstack([butter(2, 500, "high", fs=rate, output="sos"), butter(2, 10000, fs=rate, output="sos")])
    y = sosfiltfilt(sos, x)
    noise = np.median(np.abs(y)) / 0.6745
    slope = np.abs(np.gradient(y))
    above = np.flatnonzero((np.abs(y[1:-1]) > 6 * noise) & (slope[1:-1] >= slope[:-2]) & (slope[1:-1] > slope[2:])) + 1
    if len(above) < 40:
        return None
    dead = int(0.0005 * rate)
    peaks = above[np.insert(np.diff(above) > dead, 0, True)]
    half = int(0.0004 * rate)
    peaks = peaks[(peaks > half) & (peaks < len(y) - half - 1)]
    shapes = np.stack([y[p - half : p + half] for p in peaks])
    largest = np.ptp(shapes, axis=1)
    triggers = np.flatnonzero(largest > 0.7 * np.percentile(largest, 95))
    template = np.median(shapes[triggers], axis=0)
    grid = np.arange(-4, 5)
    times = []
    for p in peaks:
        c = np.array([np.dot(y[p + g - half : p + g + half], template) for g in grid if half < p + g < len(y) - half])
        k = int(np.argmax(c))
        if 0 < k < len(c) - 1:
            d = c[k - 1] - 2 * c[k] + c[k + 1]
            times.append(p + grid[k] + (0.5 * (c[k - 1] - c[k + 1]) / d if d else 0))
        else:
            times.append(float(p))
    times = np.array(times)
    gaps = [times[i + 1] - times[i] for i in triggers if i + 1 < len(times) and times[i + 1] - times[i] < 0.004 * rate]
    return float(np.mean(np.abs(np.diff(gaps))) / rate * 1e6) if len(gaps) > 20 else None


if __name__ == "__main__":
    begun = time.perf_counter()
    for name in sys.argv[1:]:
        value = jitter(*read(name))
        print(name, "no pair" if value is None else f"{value:.1f} us")
    print(f"{time.perf_counter() - begun:.2f} s for {len(sys.argv) - 1} files", file=sys.stderr)
