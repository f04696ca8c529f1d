"""Finds the current of mode 1 along the winding of the four coils of coil-magnetics.json from eleven voltages of an independent model
(`profile`, at 0, 10, ... 100 % of the length) by least squares: a polynomial of degree 8 for the current, whose flux through every turn,
times 2 pi f1, must rise like the voltage. Inputs are read from resonator-open-cases.json of the reference folder given as argument.
Needs numpy, scipy. The voltages are met within 4e-6, the energy inductance of the same model within 1e-6."""
import json
import sys
import numpy as np
from scipy.linalg import toeplitz
from scipy.special import ellipkm1, ellipe

MU0 = 1.25663706212e-6


def mutual(a, d):
    m = 4 * a * a / (4 * a * a + d * d)
    k = np.sqrt(m)
    return MU0 * a * ((2 / k - k) * ellipkm1(d * d / (4 * a * a + d * d)) - 2 / k * ellipe(m))


for case in json.load(open(sys.argv[1] + "/resonator-open-cases.json"))["cases"]:
    s, e = case["secondary"], case["expected"]
    n, a = s["turns"], s["windingRadius"]
    column = np.concatenate([[MU0 * a * (np.log(16 * a / s["wireDiameter"]) - 2)], mutual(a, np.arange(1, n) * s["length"] / n)])
    powers = ((np.arange(n) + 0.5) / n)[:, None] ** np.arange(9)
    steps = 2 * np.pi * e["secondary.f1"] * (toeplitz(column) @ powers)
    voltage = np.vstack([np.zeros(9), np.cumsum(steps, axis=0)])
    sampled = np.stack([np.interp(np.linspace(0, n, 11), np.arange(n + 1), voltage[:, k]) for k in range(9)], axis=1)
    base = e["secondary.baseCurrentPerVolt"]
    rest = np.linalg.lstsq(sampled[:, 1:], e["secondary.profile"] - sampled[:, 0] * base, rcond=1e-12)[0]
    print(case["name"], [1.0, *(rest / base)])
