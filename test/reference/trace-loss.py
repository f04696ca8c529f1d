"""Makes trace-loss.json: a.c. resistance over d.c. resistance of one straight flat trace, its section cut into a graded grid of rectangular
filaments across width and thickness, with the exact mean logarithmic distance of every pair. Needs numpy."""
import json
import numpy as np

MU0, RHO = 1.25663706212e-6, 1.7241e-8


def antiderivative(x, y):
    x, y = np.abs(x), np.abs(y)
    r2 = x * x + y * y
    logarithm = 0.5 * np.log(np.where(r2 == 0, 1, r2))
    sides = x * x * np.arctan2(y, x) + y * y * np.arctan2(x, y)
    return -(x**4 - 6 * x * x * y * y + y**4) / 24 * logarithm + x * y / 6 * sides - 25 * x * x * y * y / 48


def ratio(width, thickness, frequency, across, through):
    x = -width / 2 * np.cos(np.pi * np.arange(across + 1) / across)
    y = -thickness / 2 * np.cos(np.pi * np.arange(through + 1) / through)
    x0, y0 = (g.ravel() for g in np.meshgrid(x[:-1], y[:-1], indexing="ij"))
    x1, y1 = (g.ravel() for g in np.meshgrid(x[1:], y[1:], indexing="ij"))
    total = 0
    for xa, sa in ((x0, -1), (x1, 1)):
        for xb, sb in ((x0, -1), (x1, 1)):
            for ya, ta in ((y0, -1), (y1, 1)):
                for yb, tb in ((y0, -1), (y1, 1)):
                    total = total + sa * sb * ta * tb * antiderivative(xa[:, None] - xb, ya[:, None] - yb)
    area = (x1 - x0) * (y1 - y0)
    omega = 2 * np.pi * frequency
    z = np.diag(RHO / area) - 1j * omega * MU0 / (2 * np.pi) * total / np.outer(area, area)
    return (1 / np.linalg.solve(z, np.ones(len(area))).sum()).real * width * thickness / RHO


entries = []
for width, thickness, frequency in ((3e-3, 3.5e-5, 1e6), (3e-3, 7e-5, 1e5), (3e-3, 7e-5, 1e6), (3e-3, 1.4e-4, 1e5), (3e-3, 1.4e-4, 1e6),
                                    (6e-3, 7e-5, 2e5), (6e-3, 1.05e-4, 3e5), (1.2e-2, 7e-5, 1e5)):
    entries.append({"width": width, "thickness": thickness, "frequency": frequency, "value": ratio(width, thickness, frequency, 44, 10),
                    "coarser": ratio(width, thickness, frequency, 32, 6)})
with open("trace-loss.json", "w") as out:
    json.dump({"how": "trace-loss.py beside this file; `coarser` shows the convergence", "resistivity": RHO, "entries": entries}, out, indent=1)
