"""Makes the small MATLAB and HDF5 files of the cross checks, with NumPy, SciPy and h5py.

Made with Python 3.11, NumPy 2.4, SciPy 1.17.1 and h5py 3.16.0:
    python3 make_mat_and_hdf.py mat hdf
MATLAB files need SciPy alone; HDF5 files need h5py. The tests know the formula of the samples:
channel c, sample k is ((k * 37 + 11 * c) % 2001 - 1000), times 0.25 where the type is real.
"""

import os
import sys

import numpy as np

COUNT = 600


def whole(c):
    return (np.arange(COUNT) * 37 + 11 * c) % 2001 - 1000


def columns(channels):
    return np.stack([whole(c) for c in range(channels)], axis=1)


def make_mat(folder):
    from scipy.io import savemat

    real = columns(2) * 0.25
    for compressed in (False, True):
        name = "compressed" if compressed else "plain"
        savemat(
            os.path.join(folder, name + ".mat"),
            {
                "emg": real,
                "fs": 48828.125,
                "row": whole(3).astype(np.int16).reshape(1, -1),
                "single": (whole(1) * 0.25).astype(np.float32).reshape(-1, 1),
                "data": {"needle": whole(2).astype(np.int32).reshape(-1, 1), "note": "invented"},
                "complex": whole(0) + 1j,
                "square": np.zeros((4, 4)),
            },
            do_compression=compressed,
        )


def make_hdf(folder):
    import h5py

    with h5py.File(os.path.join(folder, "sets.h5"), "w") as f:
        f["emg"] = columns(2) * 0.25
        f.create_dataset("deep/chunked", data=columns(3).astype("<i2"), chunks=(100, 2), compression="gzip", shuffle=True)
        f.create_dataset("deep/across", data=columns(3).astype(">i4").T)
        f["fs"] = 48828.125
        f["name"] = "invented"
    with h5py.File(os.path.join(folder, "holes.h5"), "w") as f:
        d = f.create_dataset("emg", shape=(COUNT, 2), dtype="<i2", chunks=(100, 1), fillvalue=7)
        d[:200], d[300:] = columns(2)[:200], columns(2)[300:]
        d = f.create_dataset("flat", shape=(COUNT,), dtype="<i2", chunks=(100,), compression="gzip")
        d[:500] = whole(0)[:500]
        odd = h5py.h5t.STD_I16LE.copy()
        odd.set_precision(12)
        h5py.h5d.create(f.id, b"odd", odd, h5py.h5s.create_simple((COUNT,)))
    with h5py.File(os.path.join(folder, "matlab73.mat"), "w", userblock_size=512) as f:
        one = f.create_dataset("emg", data=(columns(2) * 0.25).T)
        one.attrs["MATLAB_class"] = np.bytes_("double")
    with open(os.path.join(folder, "matlab73.mat"), "r+b") as f:
        f.write(b"MATLAB 7.3 MAT-file, Platform: invented".ljust(124) + b"\x00\x02IM")
    with h5py.File(os.path.join(folder, "series.nwb"), "w") as f:
        f.attrs["nwb_version"] = "2.6.0"
        a = f.create_group("acquisition/needle")
        a.attrs["neurodata_type"] = "ElectricalSeries"
        d = a.create_dataset("data", data=columns(2).astype("<i2"), chunks=(128, 2))
        d.attrs["conversion"] = 2.5e-7
        d.attrs["offset"] = 1e-6
        d.attrs["unit"] = "volts"
        s = a.create_dataset("starting_time", data=0.0)
        s.attrs["rate"] = 48828.125
        s.attrs["unit"] = "seconds"
        t = f.create_group("acquisition/timed")
        t.attrs["neurodata_type"] = "TimeSeries"
        d = t.create_dataset("data", data=whole(0).astype("<f4"))
        d.attrs["conversion"] = 1.0
        d.attrs["unit"] = "volts"
        times = 3.5 + np.arange(COUNT) / 23437.5
        times[400:] += 0.75
        t["timestamps"] = times
    # What stands before the numbers of a day at 50 kHz, in one piece; the numbers are cut off.
    path = os.path.join(folder, "day-without-numbers.h5")
    with h5py.File(path, "w") as f:
        d = f.create_dataset("emg", shape=(24 * 3600 * 50_000,), dtype="<i2")
        d[-1] = 259
        f.flush()
        before = d.id.get_offset()
    os.truncate(path, before)


if __name__ == "__main__":
    os.chdir(os.path.dirname(os.path.abspath(__file__)))
    if "mat" in sys.argv:
        make_mat("mat")
    if "hdf" in sys.argv:
        make_hdf("hdf")
