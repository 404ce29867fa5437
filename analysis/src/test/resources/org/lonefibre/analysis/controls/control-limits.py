# Expected limits of a simulated control group of 60, by SciPy 1.17.1 and NumPy 2.4.6.
# Command: python3 control-limits.py   (writes control-group.csv and control-limits-expected.csv beside it)
import csv
import numpy as np
from scipy import stats, optimize

rng = np.random.default_rng(60)
subjects = 60
ages = np.round(rng.uniform(20, 78, subjects), 1)
rows, mean, ranked = [], [], []
for k in range(subjects):
    centre = rng.normal(21 + 0.05 * ages[k], 2.2)
    jitter = np.round(centre * rng.lognormal(-0.03, 0.25, 20), 2)
    for s, value in enumerate(jitter):
        rows.append((f"K-{k + 1:03d}", ages[k], "ED", "concentric-small", "voluntary", s + 1, value, "1"))
    mean.append(jitter.mean())
    ranked.append(np.sort(jitter)[17])
with open("control-group.csv", "w", newline="") as out:
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow("subject age_years muscle needle activation signal jitter_us grading_version".split())
    writer.writerows(rows)


def robust(x):
    """Horn, Pesce and Copeland 1998, written down once more, with SciPy's t and its median absolute deviation."""
    n = len(x)
    m = np.median(x)
    mad = stats.median_abs_deviation(x) / 0.6745
    weights = lambda t: np.clip(1 - ((x - t) / (3.7 * mad)) ** 2, 0, None) ** 2
    location = optimize.brentq(lambda t: np.sum(weights(t) * (x - t)), m - mad, m + mad, xtol=1e-13)

    def spread(centre, width, n):
        u = (x - centre) / width
        u = u[np.abs(u) < 1]
        d = np.sum((1 - u**2) * (1 - 5 * u**2))
        return width * np.sqrt(n * np.sum((1 - u**2) ** 4 * u**2) / (d * max(1, d - 1)))

    wide, near = spread(m, 205.6 * mad, n), spread(m, 3.7 * mad, n)
    return location + stats.t.ppf(0.975, n - 1) * np.hypot(wide, spread(location, 3.7 * near, 1))


def line(x, age, p=0.975):
    """Quantile regression as a linear programme (HiGHS)."""
    n = len(x)
    design = np.column_stack([np.ones(n), age, np.eye(n), -np.eye(n)])
    cost = np.concatenate([[0, 0], np.full(n, p), np.full(n, 1 - p)])
    bounds = [(None, None)] * 2 + [(0, None)] * (2 * n)
    return optimize.linprog(cost, A_eq=design, b_eq=x, bounds=bounds, method="highs").x[:2]


methods = {
    "MEAN_2_SD": lambda x: np.mean(x) + 2 * np.std(x, ddof=1),
    "MEAN_2_5_SD": lambda x: np.mean(x) + 2.5 * np.std(x, ddof=1),
    "NONPARAMETRIC": lambda x: np.quantile(x, 0.975, method="weibull"),
    "ROBUST": robust,
}
with open("control-limits-expected.csv", "w", newline="") as out:
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["what", "method", "limit_us", "low_us", "high_us"])
    for what, x in (("mean", np.array(mean)), ("single signal", np.array(ranked))):
        for name, method in methods.items():
            boot = stats.bootstrap((x,), method, n_resamples=20000, confidence_level=0.9, method="percentile",
                                   vectorized=False, rng=np.random.default_rng(28)).confidence_interval
            writer.writerow([what, name, repr(float(method(x))), repr(float(boot.low)), repr(float(boot.high))])
        level, slope = line(x, ages)
        writer.writerow([what, "LINE", repr(float(level)), repr(float(slope)), ""])
