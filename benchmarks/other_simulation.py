"""Recordings of another simulation than the project's own, and how the chain does on them.

Usage: other_simulation.py make FOLDER CONDITION SEED SITES   writes EDF files and truth.json
       other_simulation.py score FOLDER/truth.json ANALYSIS.json...   prints a line of Markdown

Nothing of the model is used: potentials are line sources seen by a point in an anisotropic medium or closed
forms; noise is white and coloured; distant units, drift of amplitude and of the baseline lie beneath. Every
site is a function of condition, seed and number. Sizes are peak to peak after a zero-phase high-pass of 500 Hz.
"""
import json
import sys
from pathlib import Path

import numpy as np
from scipy.signal import butter, lfilter, sosfilt, sosfiltfilt

USUAL = dict(
    rate_hz=50_000, seconds=12.0, units=(1, 1), fibres=(2, 3), discharges_hz=(8, 16), variation=(0.08, 0.2),
    snr=(8, 80), noise_uv=15.0, jitter_us=(12, 60), blocking=0.0, drift=0.03, distant=6, form="line", skewed=False,
    step_uv=0.3, second_ms=(0.3, 4.0), moved=None,
)
CONDITIONS = {
    "usual": {},
    "two-units": dict(units=(2, 2)),
    "two-to-three-units": dict(units=(2, 3), discharges_hz=(7, 12)),
    "blocking": dict(blocking=0.6, jitter_us=(40, 120)),
    "small": dict(snr=(5.5, 14), noise_uv=25.0),
    "slow": dict(form="slow", snr=(8, 30)),
    "slow-small": dict(form="slow", snr=(6, 12), noise_uv=25.0),
    "triphasic": dict(form="triphasic"),
    "20-khz": dict(rate_hz=20_000),
    "100-khz": dict(rate_hz=100_000),
    "skewed": dict(skewed=True, jitter_us=(15, 90)),
    "coarse-converter": dict(step_uv=4.0),
    "near": dict(second_ms=(0.3, 0.7)),
    "near-blocking": dict(second_ms=(0.3, 0.7), blocking=0.9, jitter_us=(30, 120)),
    "near-unsteady": dict(second_ms=(0.3, 0.6), jitter_us=(60, 150)),
    "needle-moved": dict(moved=(0.6, 1.5)),
    "all-of-it": dict(
        units=(2, 3), fibres=(2, 4), blocking=0.4, jitter_us=(15, 100), distant=15, drift=0.1, discharges_hz=(7, 14)
    ),
}


def between(random, limits):
    return random.uniform(*limits)


def log_between(random, limits):
    return float(np.exp(random.uniform(*np.log(limits))))


def bell(us, centre, width):
    return np.exp(-((us - centre) ** 2) / (2 * width * width))


def line_source(random, seconds):
    """Second derivative of a travelling potential, seen by a point beside the fibre."""
    steepness, velocity, distance = random.uniform(2500, 5000), random.uniform(3, 5.5), log_between(random, (3e-5, 2e-4))
    z = np.arange(-30e-3, 30e-3, 20e-6)
    behind = np.maximum(0, -z)
    current = np.gradient(np.gradient(96 * (steepness * behind) ** 3 * np.exp(-steepness * behind), z), z)
    weight = 1 / np.sqrt(5.2 * distance**2 + z**2)
    return np.interp(seconds, z / velocity, np.convolve(current, weight, "same")[::-1])


def closed_form(random, us, form):
    width = random.uniform(0.8, 1.15)
    if form == "slow":
        return (
            0.2 * bell(us, -260 * width, 150 * width)
            - 0.55 * bell(us, -20, 120 * width)
            + 0.45 * bell(us, 240 * width, 170 * width)
        )
    first, last = random.uniform(0.3, 1.0), random.uniform(0.2, 0.6)
    width *= 90
    return first * bell(us, -1.3 * width, 0.8 * width) - bell(us, 0, 0.6 * width) + last * bell(us, 1.9 * width, 1.2 * width)


class Potential:
    """One fibre's potential, put anywhere between two samples."""

    def __init__(self, random, plan, farther_hz=None):
        self.rate = plan["rate_hz"]
        self.finer = 4 if self.rate >= 100_000 else 8
        fine = self.rate * self.finer
        self.length = int(fine * 0.016)
        seconds = (np.arange(self.length) - self.length // 2) / fine
        form = plan["form"]
        wave = line_source(random, seconds) if form == "line" else closed_form(random, 1e6 * seconds, form)
        wave = sosfilt(butter(2, min(10_000, 0.42 * self.rate), "low", fs=fine, output="sos"), wave)
        seen = sosfiltfilt(butter(2, 500, "high", fs=fine, output="sos"), wave)
        wave = np.roll(wave / np.ptp(seen), self.length // 2 - int(np.argmax(np.abs(np.gradient(seen)))))
        edge = np.clip((0.5 - np.abs(np.linspace(-0.5, 0.5, self.length))) / 0.12, 0, 1)
        wave *= 0.5 - 0.5 * np.cos(np.pi * edge)
        self.frequencies = np.fft.rfftfreq(2 * self.length, 1 / fine)
        self.spectrum = np.fft.rfft(np.concatenate([wave, np.zeros(self.length)]))
        if farther_hz:
            self.spectrum = self.spectrum * np.exp(-((self.frequencies / farther_hz) ** 2))

    def put(self, signal, at_s, size_uv):
        whole = int(np.floor(at_s * self.rate))
        shift = np.exp(-2j * np.pi * self.frequencies * (at_s - whole / self.rate))
        centre = self.length // 2
        wave = np.fft.irfft(self.spectrum * shift, 2 * self.length)[centre % self.finer : self.length + self.finer : self.finer]
        start = whole - centre // self.finer
        first, last = max(0, start), min(len(signal), start + len(wave))
        if last > first:
            signal[first:last] += size_uv * wave[first - start : last - start]


def discharge_times(random, plan):
    usual, variation = 1 / between(random, plan["discharges_hz"]), between(random, plan["variation"])
    times, time, slow = [], random.uniform(0.05, 0.2), 1.0
    while time < plan["seconds"] - 0.05:
        times.append(time)
        slow = 1 + 0.9 * (slow - 1) + random.normal(0, 0.03)
        time += max(0.022, usual * slow * (1 + variation * random.normal()))
    return np.array(times)


def lags_s(random, plan):
    fibres = random.integers(plan["fibres"][0], plan["fibres"][1] + 1)
    lags = [0.0]
    while len(lags) < fibres:
        lag = between(random, plan["second_ms"]) * 1e-3 if len(lags) == 1 else random.uniform(-3.5e-3, 3.8e-3)
        if min(abs(lag - other) for other in lags) > 0.3e-3 and max(lags + [lag]) - min(lags + [lag]) < 6e-3:
            lags.append(lag)
    return lags


def noise_of(random, plan, samples):
    rate, top = plan["rate_hz"], min(10_000, 0.42 * plan["rate_hz"])
    white, low = random.normal(size=samples), lfilter([1], [1, -0.7], random.normal(size=samples))
    noise = sosfilt(butter(2, top, "low", fs=rate, output="sos"), white / white.std() + 0.6 * low / low.std())
    level = plan["noise_uv"] * random.uniform(0.7, 1.3)
    seen = sosfiltfilt(butter(2, [500, 0.99 * top], "band", fs=rate, output="sos"), noise)
    return noise * level / seen.std(), level


def add_unit(random, plan, signal, level, name):
    times = discharge_times(random, plan)
    count, fibres = len(times), []
    for number, lag in enumerate(lags_s(random, plan)):
        potential, spread = Potential(random, plan), between(random, plan["jitter_us"]) * 1e-6 / 1.128
        law = (random.gamma(2.5, 1, count) - 2.5) / np.sqrt(2.5) if plan["skewed"] else random.normal(size=count)
        blocks = number > 0 and random.uniform() < plan["blocking"]
        absent = random.uniform(size=count) < (random.uniform(0.05, 0.5) if blocks else 0)
        arrivals = times + lag + spread * law
        size = level * log_between(random, plan["snr"])
        sizes = size * (1 + plan["drift"] * np.cumsum(random.normal(size=count)) / np.sqrt(count))
        sizes *= 1 + 0.01 * random.normal(size=count)
        if plan["moved"]:
            sizes[count // 2 :] *= between(random, plan["moved"])
        for at, uv, gone in zip(arrivals, sizes, absent):
            if not gone:
                potential.put(signal, at, max(0.3 * size, uv))
        arrivals[absent] = np.nan
        fibres.append(dict(id=f"{name}F{number + 1}", amplitudeUv=size, arrivals=arrivals))
    return fibres


def add_distant(random, plan, signal, level):
    for _ in range(plan["distant"]):
        potential = Potential(random, plan, farther_hz=random.uniform(500, 1500))
        parts = [(random.uniform(-4e-3, 4e-3), random.uniform(0.3, 1)) for _ in range(random.integers(3, 9))]
        size, usual, time = level * random.uniform(0.2, 1.1), 1 / random.uniform(6, 18), random.uniform(0, 0.1)
        while time < plan["seconds"]:
            for lag, share in parts:
                potential.put(signal, time + lag, size * share)
            time += usual * max(0.3, 1 + 0.15 * random.normal())


def field(value, width):
    return str(value).ljust(width)[:width].encode("ascii")


def write_edf(path, signal, plan):
    step = max(plan["step_uv"], 1.05 * np.abs(signal).max() / 32767)
    samples = np.round(signal / step).astype("<i2")
    record, record_s = int(round(plan["rate_hz"] * 0.05)), 0.05
    lowest = f"-{32767 * step:.6f}"[:8]
    head = [("0", 8), ("X X X X", 80), ("Startdate 01-JAN-2026 X X X", 80), ("01.01.26", 8), ("00.00.00", 8), (512, 8)]
    head += [("", 44), (len(samples) // record, 8), (record_s, 8), (1, 4), ("needle", 16), ("", 80), ("uV", 8)]
    head += [(lowest, 8), (lowest[1:], 8), (-32767, 8), (32767, 8), ("HP:1Hz LP:10000Hz", 80), (record, 8), ("", 32)]
    body = samples[: len(samples) // record * record]
    path.write_bytes(b"".join(field(value, width) for value, width in head) + body.tobytes())


def make(folder, condition, seed, sites):
    plan = USUAL | CONDITIONS[condition]
    folder.mkdir(parents=True, exist_ok=True)
    truth = dict(condition=condition, recordings=[])
    for site in range(sites):
        random = np.random.default_rng([seed, site, sum(condition.encode())])
        signal = np.zeros(int(plan["seconds"] * plan["rate_hz"]))
        noise, level = noise_of(random, plan, len(signal))
        units = random.integers(plan["units"][0], plan["units"][1] + 1)
        motor_units = [add_unit(random, plan, signal, level, f"U{u + 1}") for u in range(units)]
        add_distant(random, plan, signal, level)
        signal += noise + 30 * np.sin(2 * np.pi * 0.3 * np.arange(len(signal)) / plan["rate_hz"])
        name = f"{condition}-{seed}-{site:02d}.edf"
        write_edf(folder / name, signal, plan)
        for fibres in motor_units:
            for fibre in fibres:
                fibre["arrivals"] = [None if np.isnan(at) else at for at in fibre["arrivals"]]
        truth["recordings"].append(dict(file=name, noiseUv=level, motorUnits=motor_units))
    (folder / "truth.json").write_text(json.dumps(truth))


def eligible(fibres, one, other, noise_uv):
    """Whether a pair counts: sizes over five times the noise, 300 us to 4 ms apart, no third fibre in one of them."""
    interval = np.nanmedian(other["arrivals"] - one["arrivals"])
    if min(one["amplitudeUv"], other["amplitudeUv"]) <= 5 * noise_uv or not 300e-6 <= abs(interval) <= 4e-3:
        return False
    for mine in (one, other):
        for third in fibres:
            near = third not in (one, other) and abs(np.nanmedian(third["arrivals"] - mine["arrivals"])) < 500e-6
            if near and third["amplitudeUv"] > 0.1 * mine["amplitudeUv"]:
                return False
    return True


def whose(fibres, times):
    """The fibre that most of some times follow at one distance, or None."""
    best, most = None, 0.5
    for fibre in fibres:
        arrivals = np.sort(fibre["arrivals"][~np.isnan(fibre["arrivals"])])
        if len(arrivals) < 2:
            continue
        after = np.clip(np.searchsorted(arrivals, times), 1, len(arrivals) - 1)
        before = times - arrivals[after - 1]
        off = np.where(before < arrivals[after] - times, before, times - arrivals[after])
        close = np.abs(off) < 250e-6
        share = np.mean(np.abs(off - np.median(off[close])) < 150e-6) if close.sum() > 5 else 0
        if share > most:
            best, most = fibre, share
    return best


def consecutive_us(one, other):
    steps = np.abs(np.diff(1e6 * (other["arrivals"] - one["arrivals"])))
    return float(np.nanmean(steps)), int(np.sum(~np.isnan(steps)))


def sorted_us(one, other):
    before = np.diff(one["arrivals"], prepend=np.nan)
    intervals = 1e6 * (other["arrivals"] - one["arrivals"])
    return float(np.nanmean(np.abs(np.diff(intervals[np.argsort(before, kind="stable")]))))


def is_right(pair, one, other):
    """Within 1 us, 5 % or three floors over the root of the differences of the realised truth, by the statistic chosen."""
    consecutive = pair["jitterStatistic"] == "mean-consecutive-difference"
    real = consecutive_us(one, other)[0] if consecutive else sorted_us(one, other)
    allowed = max(1, 0.05 * real, 3 * pair["timingFloorUs"] / np.sqrt(max(1, pair["differences"])))
    return abs(pair["correctedJitterUs"] - real) <= allowed


def score_site(truth, recording, sums):
    units = truth["motorUnits"]
    for fibre in (fibre for fibres in units for fibre in fibres):
        fibre["arrivals"] = np.array([np.nan if at is None else at for at in fibre["arrivals"]])
    everyone = [fibre for fibres in units for fibre in fibres]
    found, triggers = {}, []
    for pair in (pair for unit in recording["motorUnits"] for pair in unit["pairs"]):
        seen = [sweep for sweep in pair["intervals"] if sweep["state"] == "present"]
        if len(seen) < 6:
            continue
        times = np.array([sweep["timeS"] for sweep in seen])
        one = whose(everyone, times)
        other = whose(everyone, times + 1e-6 * np.array([sweep["intervalUs"] for sweep in seen]))
        if one and other and one is not other and one["id"][:2] == other["id"][:2]:
            found[frozenset((one["id"], other["id"]))] = pair
            triggers.append(one["id"])
            count_blocks(pair, one, other, sums)
        elif pair["status"] == "measured":
            sums["invented"] += 1
    reached = {fibre for key in found for fibre in key}
    for fibres in units:
        for a, one in enumerate(fibres):
            for other in fibres[a + 1 :]:
                key = frozenset((one["id"], other["id"]))
                if consecutive_us(one, other)[1] < 20 or not eligible(fibres, one, other, truth["noiseUv"]):
                    continue
                if key not in found and key <= reached:
                    continue  # both are followed, each against another trigger
                sums["eligible"] += 1
                pair = found.get(key)
                if pair and pair["correctedJitterUs"] is not None:
                    sums["found"] += 1
                    sums["right"] += is_right(pair, one, other)


def count_blocks(pair, one, other, sums):
    for sweep in pair["intervals"]:
        near = np.abs(one["arrivals"] - sweep["timeS"])
        d = int(np.nanargmin(near))
        if near[d] > 500e-6 or sweep["state"] not in ("present", "blocked"):
            continue
        blocked = sweep["state"] == "blocked"
        if np.isnan(other["arrivals"][d]):
            sums["blocks"] += 1
            sums["blocks found"] += blocked
        else:
            sums["judged"] += 1
            sums["false blocks"] += blocked


def score(truth_file, analyses):
    truth = json.loads(Path(truth_file).read_text())
    recordings = {
        Path(recording["file"]).name: recording
        for analysis in analyses
        for study in json.loads(Path(analysis).read_text())["studies"]
        for recording in study["recordings"]
    }
    names = ("eligible", "found", "right", "false blocks", "judged", "blocks found", "blocks", "invented")
    sums = dict.fromkeys(names, 0)
    for site in truth["recordings"]:
        score_site(site, recordings[site["file"]], sums)
    found, right = 100 * sums["found"] / max(1, sums["eligible"]), 100 * sums["right"] / max(1, sums["found"])
    print(
        f"| {truth['condition']} | {len(truth['recordings'])} | {sums['eligible']} | {found:.1f} % | {right:.1f} %"
        f" | {sums['false blocks']} / {sums['judged']} | {sums['blocks found']} of {sums['blocks']} | {sums['invented']} |"
    )


if __name__ == "__main__":
    if len(sys.argv) == 6 and sys.argv[1] == "make":
        make(Path(sys.argv[2]), sys.argv[3], int(sys.argv[4]), int(sys.argv[5]))
    elif len(sys.argv) >= 4 and sys.argv[1] == "score":
        score(sys.argv[2], sys.argv[3:])
    else:
        sys.exit(__doc__)
