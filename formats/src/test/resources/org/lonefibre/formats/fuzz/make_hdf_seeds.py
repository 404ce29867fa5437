"""Makes the small HDF5 files that the fuzzing begins with: one signal each, every way of storing it.

Made with Python 3.11, NumPy 2.4 and h5py 3.16.0:
    python3 make_hdf_seeds.py
"""

import os

import h5py
import numpy as np

COUNT = 60
WAVE = ((np.arange(COUNT) * 37) % 201 - 100).astype("<i2")
TWO = np.stack([WAVE, -WAVE], axis=1)


def sets(folder):
    def one(name, version, data, **how):
        with h5py.File(os.path.join(folder, name + ".h5"), "w", libver=version) as f:
            f.create_dataset("emg", data=data, **how)
            f["fs"] = 48828.125

    old, new = "earliest", "latest"
    one("contiguous", old, TWO.astype(">f8"))
    one("chunks", old, TWO, chunks=(16, 1), compression="gzip", shuffle=True, fletcher32=True)
    one("lzf", old, WAVE, chunks=(25,), compression="lzf")
    one("new-one-chunk", new, TWO, chunks=(60, 2), compression="gzip")
    one("new-fixed-array", new, TWO.astype("<f4"), chunks=(25, 2), fletcher32=True)
    one("new-extensible", new, TWO, chunks=(25, 2), maxshape=(None, 2))
    one("new-tree", new, TWO, chunks=(25, 2), maxshape=(None, None))
    one("big", old, TWO.T.astype(">i4"))
    with h5py.File(os.path.join(folder, "compact.h5"), "w", libver=new) as f:
        made = h5py.h5p.create(h5py.h5p.DATASET_CREATE)
        made.set_layout(h5py.h5d.COMPACT)
        space = h5py.h5s.create_simple(WAVE.shape)
        h5py.h5d.create(f.id, b"emg", h5py.h5t.STD_I16LE, space, made).write(h5py.h5s.ALL, h5py.h5s.ALL, WAVE)
    with h5py.File(os.path.join(folder, "block.h5"), "w", userblock_size=512) as f:
        f["emg"] = WAVE


def series(folder):
    for version in ("earliest", "latest"):
        with h5py.File(os.path.join(folder, "rate-" + version + ".nwb"), "w", libver=version) as f:
            f.attrs["nwb_version"] = "2.6.0"
            f["session_start_time"] = "2026-11-24T10:20:30.250000+01:00"
            a = f.create_group("acquisition/needle")
            a.attrs["neurodata_type"] = "ElectricalSeries"
            d = a.create_dataset("data", data=TWO)
            d.attrs["conversion"] = 2.5e-7
            d.attrs["offset"] = 1e-6
            d.attrs["unit"] = "volts"
            s = a.create_dataset("starting_time", data=1.5)
            s.attrs["rate"] = 48828.125
    with h5py.File(os.path.join(folder, "times.nwb"), "w", libver="latest") as f:
        f.attrs["nwb_version"] = "2.6.0"
        a = f.create_group("acquisition/needle")
        a.attrs["neurodata_type"] = "ElectricalSeries"
        a.create_dataset("data", data=WAVE.astype("<f4")).attrs["unit"] = "volts"
        times = 3.5 + np.arange(COUNT) / 23437.5
        times[40:] += 0.75
        a["timestamps"] = times


if __name__ == "__main__":
    here = os.path.join(os.path.dirname(os.path.abspath(__file__)), "hdf")
    os.makedirs(here, exist_ok=True)
    sets(here)
    series(here)
