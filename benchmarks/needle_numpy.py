"""The lead field of a needle and fibre potentials from it with NumPy and SciPy, timed.

Usage: needle_numpy.py COARSE.csv FINE.csv, surfaces as written by NeedleSurfaces: a triangle a line, nine
corner coordinates in mm and its region (0 insulation, 1 core, 2 shaft); z of 0 or more, its image is added.
The same boundary elements as in the model: exact integrals of constant elements, ideal metal, two meshes and
what both point to; a dense factorisation in double precision. Each time is the shortest of three.
"""
import sys
import time

import numpy as np
import scipy.linalg
import scipy.signal

ACROSS, ALONG, INSIDE = 0.063, 0.33, 1.01  # S/m
MEAN = (ACROSS * ACROSS * ALONG) ** (1 / 3)
SCALE = np.sqrt(MEAN / np.array([ACROSS, ACROSS, ALONG]))  # fibres along z
PER_MM = MEAN / 1000


class Triangles:
    def __init__(self, file):
        table = np.loadtxt(file, delimiter=",")
        self.corners = table[:, :9].reshape(-1, 3, 3) * SCALE
        self.region = table[:, 9].astype(int)
        a, b, c = (self.corners[:, i] for i in range(3))
        n = np.cross(b - a, c - a)
        doubled = np.linalg.norm(n, axis=1)
        self.normals, self.areas = n / doubled[:, None], doubled / 2
        self.middles = self.corners.mean(axis=1)

    def see(self, places):
        """Integrals of 1/(4 pi r) and of its slope over each triangle and its image: two arrays, place by triangle."""
        single, double = self.one(places)
        image = self.one(places * np.array([1, 1, -1]))
        return single + image[0], double + image[1]

    def one(self, places):
        to = [self.corners[None, :, i] - places[:, None] for i in range(3)]
        far = [np.linalg.norm(t, axis=2) for t in to]
        height = -np.einsum("ptk,tk->pt", to[0], self.normals)
        (a, b, c), (ra, rb, rc) = to, far
        volume = np.einsum("ptk,ptk->pt", a, np.cross(b, c))
        below = (ra * rb * rc + np.einsum("ptk,ptk->pt", a, b) * rc + np.einsum("ptk,ptk->pt", b, c) * ra
                 + np.einsum("ptk,ptk->pt", c, a) * rb)
        solid = np.where(np.abs(height) > 1e-12, 2 * np.arctan2(volume, below), 0)
        edges = 0
        for i in range(3):
            j = (i + 1) % 3
            along = self.corners[:, j] - self.corners[:, i]
            length = np.linalg.norm(along, axis=1)
            side = np.einsum("ptk,tk->pt", to[i], np.cross(along, self.normals)) / length
            total = far[i] + far[j]
            near = np.abs(side) < 1e-12 * total
            edges = edges + np.where(near, 0, side * np.log((total + length) / np.where(near, total, total - length)))
        return (edges + height * solid) / (4 * np.pi), -solid / (4 * np.pi)


def solve(file):
    """Resistance between core and shaft, and the lead as a function of places in mm."""
    t = Triangles(file)
    parts = [t.see(block) for block in np.array_split(t.middles, max(1, len(t.middles) // 100))]
    single, double = (np.concatenate([p[k] for p in parts]) for k in range(2))
    half = 0.5 * np.eye(len(single))
    metal = t.region > 0
    factors = scipy.linalg.lu_factor(np.where(metal[None, :], single, half - double))
    right = np.stack([(double - half)[:, t.region == r].sum(axis=1) for r in (1, 2)], axis=1)
    unknown = scipy.linalg.lu_solve(factors, right)
    conductance = np.array([[-2 * PER_MM * unknown[t.region == r, k] @ t.areas[t.region == r] for k in range(2)] for r in (1, 2)])
    volts = np.linalg.solve(conductance, [1, -1])
    mixed = unknown @ volts
    u = np.where(metal, np.where(t.region == 1, volts[0], volts[1]), mixed)
    q = np.where(metal, mixed, 0)

    def lead(places):
        single, double = t.see(places * SCALE)
        return double @ u - single @ q

    return volts[0] - volts[1], lead, len(single)


def both(coarse, fine):
    r1, lead1, n1 = solve(coarse)
    r2, lead2, n2 = solve(fine)
    over = n1 / (n2 - n1)
    return r2 + over * (r2 - r1), lambda p: lead2(p) + over * (lead2(p) - lead1(p)), 2 * n2


def potentials(lead_slopes, step_mm, radius_mm):
    """Potentials of fibres, a row of lead slopes each: the wave's slope 96 (L z)^3 exp(-L z), L = 3.5 per mm, convolved."""
    z = np.arange(0, 8, step_mm)
    wave = np.gradient(96e3 * (3.5 * z) ** 3 * np.exp(-3.5 * z), step_mm)
    strength = np.pi * radius_mm**2 * INSIDE / 1000
    return strength * scipy.signal.fftconvolve(lead_slopes, wave[None, :], axes=1) * step_mm


def shortest(run):
    times = []
    for _ in range(3):
        begun = time.perf_counter()
        found = run()
        times.append(time.perf_counter() - begun)
    return min(times), found


seconds, (resistance, lead, triangles) = shortest(lambda: both(sys.argv[1], sys.argv[2]))
shown = lead(np.array([[0, d, 0] for d in (0.1, 0.3, 1.0)])) / 1000
print(f"NumPy: {triangles} triangles, {seconds:.2f} s; {resistance / 1000:.1f} kOhm, lead "
      + " ".join(f"{x:.4g}" for x in shown) + " kOhm at 0.1 0.3 1 mm")
step = 3.7 * 0.02  # mm in 20 us
along = np.arange(-40, 40, step)
line = lead(np.array([[0, 0.1, z] for z in along]))
slopes = np.tile(np.gradient(line, step), (200, 1))
seconds, found = shortest(lambda: potentials(slopes, step, 0.0275))
print(f"NumPy: {200 / seconds:.0f} potentials a second at steps of 20 us ({np.ptp(found[0]):.0f} uV)")
