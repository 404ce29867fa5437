"""A plain pipeline in SciPy and NumPy for the same job, as far as one page goes.

Both filters of the chain, zero-phase; noise; steep phases; snippets sorted into classes by principal
components and k-means; classes that keep their distance from each other make a motor unit; a template of
each potential; arrivals of most likelihood below the sample grid; MCD, or MSD where the rhythm makes
the difference, of every pair. What it does not do is said in docs/benchmarks.md.
Usage: scipy_pipeline.py FILE.edf...; prints one line per pair and the seconds of all.
"""
import sys
import time

import numpy as np
from scipy.cluster.vq import kmeans2
from scipy.signal import butter, sosfiltfilt

HALF_US = 400
DEAD_US = 500
REACH_US = 12_000
COMPONENTS = 6
CLASSES = 12
ALIKE = 0.25


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


def filtered(x, rate, order, high_pass_hz):
    """Butterworth, forwards and backwards."""
    sos = np.vstack(
        [
            butter(order, high_pass_hz, "high", fs=rate, output="sos"),
            butter(2, 10_000, fs=rate, output="sos"),
        ]
    )
    return sosfiltfilt(sos, x)


def spread(x):
    """Robust standard deviation around zero; every tenth sample tells enough."""
    return np.median(np.abs(x[::10])) / 0.6745


def windows(y, places, half):
    return y[places[:, None] + np.arange(-half, half)]


def steep_phases(y, rate):
    """The steepest sample of everything that stands out of the noise."""
    slope = np.abs(np.gradient(y))
    threshold = 6 * spread(slope)
    s = slope[1:-1]
    above = np.flatnonzero((s > threshold) & (s >= slope[:-2]) & (s > slope[2:])) + 1
    dead = int(DEAD_US * 1e-6 * rate)
    kept = []
    for place in above:
        if kept and place - kept[-1] <= dead:
            if slope[place] > slope[kept[-1]]:
                kept[-1] = place
        else:
            kept.append(place)
    half = int(HALF_US * 1e-6 * rate) + 6
    kept = np.array(kept, dtype=int)
    return kept[(kept > half) & (kept < len(y) - half)]


def sorted_into_classes(snippets):
    """A class of each snippet: k-means on principal components, then classes that look alike as one."""
    centred = snippets - snippets.mean(axis=0)
    _, axes = np.linalg.eigh(centred.T @ centred)
    _, label = kmeans2(centred @ axes[:, -COMPONENTS:], CLASSES, minit="++", seed=1)
    shapes = {c: np.median(snippets[label == c], axis=0) for c in np.unique(label)}
    for c in shapes:
        for d in shapes:
            if d >= c:
                break
            difference = np.linalg.norm(shapes[c] - shapes[d])
            if difference < ALIKE * min(np.linalg.norm(shapes[c]), np.linalg.norm(shapes[d])):
                label[label == c] = d
                break
    return label


def units(places, label, size, rate):
    """Motor units: the class with the largest potentials first, and those that keep their distance."""
    reach = REACH_US * 1e-6 * rate
    free = np.ones(len(places), dtype=bool)
    order = sorted(set(label), key=lambda c: -np.median(size[label == c]))
    for anchor in order:
        triggers = np.flatnonzero(free & (label == anchor))
        if len(triggers) < 30:
            continue
        at = places[triggers]
        potentials = [(0.0, triggers, np.arange(len(triggers)))]
        for other in order:
            spikes = np.flatnonzero(free & (label == other))
            if len(spikes) < 10:
                continue
            low = np.searchsorted(places[spikes], at - reach)
            high = np.searchsorted(places[spikes], at + reach)
            which = np.repeat(np.arange(len(at)), high - low)
            each = np.concatenate([spikes[a:b] for a, b in zip(low, high)]) if len(which) else spikes[:0]
            lag = places[each] - at[which]
            which, each, lag = (v[each != triggers[which]] for v in (which, each, lag))
            while len(lag):
                lags = np.sort(lag)
                width = int(250e-6 * rate)
                crowd = np.searchsorted(lags, lags + width) - np.arange(len(lags))
                if crowd.max() < 0.4 * len(at):
                    break
                k = int(np.argmax(crowd))
                near = np.abs(lag - np.median(lags[k : k + crowd[k]])) < 1.5 * width
                _, first = np.unique(which[near], return_index=True)
                potentials.append((float(np.median(lag[near])), each[near][first], which[near][first]))
                which, each, lag = (v[~near] for v in (which, each, lag))
        for _, spikes, _ in potentials:
            free[spikes] = False
        yield len(at), potentials


def arrivals(y, places, half):
    """Most likely arrivals in white noise: least squares in time and size, three steps."""
    grid = windows(y, places, half + 4)
    template = np.median(grid, axis=0)[4:-4]
    products = np.stack([grid[:, k : k + 2 * half] @ template for k in range(9)], axis=1)
    times = places + np.argmax(products, axis=1) - 4.0
    for _ in range(3):
        whole = np.floor(times).astype(int)
        rows = between(y, whole, times - whole, half)
        template = rows.mean(axis=0)
        slope = np.gradient(template)
        base = np.stack([template, -slope], axis=1)
        (gain, moved), *_ = np.linalg.lstsq(base, rows.T, rcond=None)
        times = times + np.clip(moved / np.maximum(gain, 0.3), -1, 1)
    return times


def between(y, whole, fraction, half):
    """Windows at fractions of a sample, by the cubic through four samples."""
    w = windows(y, whole, half + 2)
    a, b, c, d = (w[:, 1 + k : 1 + k + 2 * half] for k in range(4))
    f = fraction[:, None]
    return b + 0.5 * f * (c - a + f * (2 * a - 5 * b + 4 * c - d + f * (3 * (b - c) + d - a)))


def jitter(intervals, triggers):
    """Mean consecutive difference in samples, or mean sorted-data difference if that is much less."""
    mcd = np.mean(np.abs(np.diff(intervals)))
    by_rhythm = np.argsort(np.diff(triggers), kind="stable")
    msd = np.mean(np.abs(np.diff(intervals[1:][by_rhythm])))
    return ("MSD", msd) if mcd > 1.25 * msd else ("MCD", mcd)


def pairs(x, rate):
    """Unit, pair, statistic, jitter in us and amplitude in uV of each pair of a site."""
    y = filtered(x, rate, 1, 1_500)
    whole = filtered(x, rate, 2, 500)
    half = int(HALF_US * 1e-6 * rate)
    places = steep_phases(y, rate)
    if len(places) < 40:
        return
    snippets = windows(y, places, half)
    label = sorted_into_classes(snippets)
    size = np.ptp(windows(whole, places, half), axis=1)
    for u, (discharges, potentials) in enumerate(units(places, label, size, rate)):
        times = np.full((len(potentials), discharges), np.nan)
        for p, (_, spikes, which) in enumerate(potentials):
            times[p, which] = arrivals(y, places[spikes], half)
        for p in range(1, len(potentials)):
            both = np.isfinite(times[p])
            if np.count_nonzero(both) > 20:
                name, value = jitter((times[p] - times[0])[both], times[0][both])
                amplitude = float(np.median(size[potentials[p][1]]))
                yield u + 1, p, name, value / rate * 1e6, amplitude


if __name__ == "__main__":
    begun = time.perf_counter()
    for path in sys.argv[1:]:
        for unit, pair, name, value, amplitude in pairs(*read(path)):
            print(f"{path} unit {unit} pair {pair}: {name} {value:.1f} us, {amplitude:.0f} uV")
    print(f"{time.perf_counter() - begun:.2f} s for {len(sys.argv) - 1} files", file=sys.stderr)
