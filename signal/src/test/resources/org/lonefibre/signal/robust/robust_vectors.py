"""Values for the robust statistics tests.

Command: python3 robust_vectors.py > robust_vectors.csv   (in this folder)
"""
import sys
import numpy as np
import scipy
from scipy import stats

print(f"# scipy {scipy.__version__}, numpy {np.__version__}, python {sys.version.split()[0]}")
print("# command: python3 robust_vectors.py > robust_vectors.csv")
rng = np.random.default_rng(7)
for n in (1, 2, 3, 10, 101, 256):
    x = np.round(rng.standard_t(2, n) * 10, 2)  # ties and wild values
    results = [np.median(x), stats.median_abs_deviation(x), stats.median_abs_deviation(x, scale="normal"),
               np.quantile(x, 0.05), np.quantile(x, 0.37), np.quantile(x, 1.0), stats.trim_mean(x, 0.1)]
    print(";".join(repr(float(v)) for v in x) + "," + ";".join(repr(float(v)) for v in results))
