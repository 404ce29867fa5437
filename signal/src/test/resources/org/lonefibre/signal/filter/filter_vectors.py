"""Vectors for the filter tests.

Command: python3 filter_vectors.py > filter_vectors.csv   (in this folder)

Columns: name, kind, values. Kinds: rate (Hz), sos (rows b0 b1 b2 a0 a1 a2), input, causal (sosfilt from sosfilt_zi * first sample), zerophase (sosfiltfilt, defaults).
"""
import sys
import numpy as np
import scipy
from scipy import signal

print(f"# scipy {scipy.__version__}, numpy {np.__version__}, python {sys.version.split()[0]}")
print("# command: python3 filter_vectors.py > filter_vectors.csv")
rng = np.random.default_rng(20260101)


def line(name, kind, values):
    print(name + "," + kind + "," + ";".join(repr(float(v)) for v in np.ravel(values)))


def potentials(rate, n):
    t = np.arange(n) / rate
    x = 120.0 + 3.0 * rng.standard_normal(n) + 40 * np.sin(2 * np.pi * 50 * t)
    for centre in (0.0021, 0.0049):
        u = (t - centre) / 0.00012
        x += -900 * u * np.exp(-u * u)
    return np.round(x, 3)


def case(name, rate, sos, x):
    line(name, "rate", [rate])
    line(name, "sos", sos)
    line(name, "input", x)
    causal, _ = signal.sosfilt(sos, x, zi=signal.sosfilt_zi(sos) * x[0])
    line(name, "causal", causal)
    line(name, "zerophase", signal.sosfiltfilt(sos, x))


for rate in (20000.0, 48828.125, 50000.0, 100000.0):
    low = min(10000.0, 0.45 * rate)
    x = potentials(rate, int(0.007 * rate))
    for needle, high in (("single-fibre", 500.0), ("concentric", 1000.0)):
        sos = np.vstack([
            signal.butter(2, high, "highpass", fs=rate, output="sos"),
            signal.butter(2, low, "lowpass", fs=rate, output="sos"),
        ])
        case(f"{needle} {rate}", rate, sos, x)

rate = 20000.0
low = 0.45 * rate
x = potentials(rate, 140)
case("lowpass-under-rate", rate, np.vstack([
    signal.butter(2, 500.0, "highpass", fs=rate, output="sos"),
    signal.butter(2, low, "lowpass", fs=rate, output="sos")]), x)
case("order-1", rate, np.vstack([
    signal.butter(1, 500.0, "highpass", fs=rate, output="sos"),
    signal.butter(1, low, "lowpass", fs=rate, output="sos")]), x)
case("order-3", rate, np.vstack([
    signal.butter(3, 500.0, "highpass", fs=rate, output="sos"),
    signal.butter(3, low, "lowpass", fs=rate, output="sos")]), x)
b, a = signal.iirnotch(50.0, 25.0, fs=rate)
case("notch", rate, np.concatenate([b, a])[None, :], x)
