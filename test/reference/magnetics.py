"""Makes magnetics.json: values for the tests of elliptic integrals, the skin-effect ratio and rings, by methods other than the
program's own. Needs mpmath. Run in this folder: python3 magnetics.py"""
import json
from mpmath import mp, mpf, mpc, ellipk, ellipe, besselj, quad, cos, sin, sqrt, pi, exp, log, nstr

mp.dps = 50
MU0 = mpf("1.25663706212e-6")


def number(x):
    return float(nstr(x, 17))


elliptic = []
for m1 in ["1", "0.999999", "0.9", "0.5", "0.1", "1e-3", "1e-6", "1.1e-9", "0.9e-9", "1e-12", "1e-20"]:
    q = mpf(float(m1))
    elliptic.append({"m1": float(m1), "K": number(ellipk(1 - q)), "E": number(ellipe(1 - q))})

skin = []
for x in ["1e-6", "1e-3", "0.1", "0.5", "1", "2", "3", "5", "8", "12", "20", "27.99", "28.01", "40", "100", "500"]:
    mp.dps = 60 if float(x) < 50 else 500
    z = mpf(float(x)) * exp(mpc(0, -1) * pi / 4)
    ratio = z / 2 * besselj(0, z) / besselj(1, z)
    moment = besselj(2, z) / besselj(0, z)
    skin.append({"x": float(x), "re": number(ratio.real), "im": number(ratio.imag), "moment": number(-moment.imag)})
    mp.dps = 50


def mutual(a, b, d):
    """Neumann's integral, the peak at 0 resolved by splitting."""
    a, b, d = (mpf(float(v)) for v in (a, b, d))
    near = sqrt((a - b) ** 2 + d * d) / max(a, b)
    marks = [0] + [near * s for s in (0.1, 1, 10, 100) if near * s < 3] + [pi]
    f = lambda t: cos(t) / sqrt((a - b) ** 2 + d * d + 4 * a * b * sin(t / 2) ** 2)
    return MU0 * a * b * quad(f, marks)


rings = []
for a, b, d in [("0.1", "0.05", "0.05"), ("0.1", "0.1", "1e-4"), ("0.1", "0.1000001", "0"), ("0.5", "0.5", "0.0005"),
                ("0.1", "0.1", "1"), ("0.1", "0.02", "3"), ("0.1", "0.1", "30"), ("0.001", "0.3", "0.1"), ("0.2", "0.001", "0")]:
    far = mpf(d) > 20 * (mpf(a) + mpf(b))
    mp.dps = 80 if far else 50
    rings.append({"radiusA": float(a), "radiusB": float(b), "separation": float(d), "henry": number(mutual(a, b, d))})
    mp.dps = 50


def field(a, r, z):
    """Biot and Savart over the filament, for one ampere."""
    a, r, z = (mpf(float(v)) for v in (a, r, z))
    distance = lambda t: (a * a + r * r + z * z - 2 * a * r * cos(t)) ** mpf("1.5")
    near = sqrt((a - r) ** 2 + z * z) / a
    marks = [0] + [near * s for s in (0.1, 1, 10, 100) if near * s < 3] + [pi]
    front = MU0 * a / (2 * pi)
    return front * quad(lambda t: z * cos(t) / distance(t), marks), front * quad(lambda t: (a - r * cos(t)) / distance(t), marks)


fields = []
for a, r, z in [("0.1", "0", "0.05"), ("0.1", "1e-6", "0.05"), ("0.1", "0.05", "0"), ("0.1", "0.1", "0.0003"), ("0.1", "0.099", "0.0001"),
                ("0.1", "0.3", "0.2"), ("0.1", "4", "3"), ("0.05", "0.06", "-0.02"), ("0.1", "1e-3", "5")]:
    radial, axial = field(a, r, z)
    fields.append({"radius": float(a), "pointRadius": float(r), "pointHeight": float(z), "radial": number(radial), "axial": number(axial)})


def arc(radius, wire, share):
    """Neumann's double integral of an arc and the same arc at a distance of the wire's radius along the axis, over that of the full ring,
    times the full ring's closed form."""
    radius, wire, share = (mpf(float(v)) for v in (radius, wire, share))
    eps = wire / radius
    f = lambda t: cos(t) / sqrt(4 * sin(t / 2) ** 2 + eps * eps)
    def total(s):
        angle = 2 * pi * s
        marks = sorted({mpf(0), angle} | {m for m in (eps, 10 * eps, mpf(1), 2 * pi - 1, 2 * pi - 10 * eps, 2 * pi - eps) if m < angle})
        return quad(lambda t: (angle - t) * f(t), marks)
    return MU0 * radius * (log(8 * radius / wire) - 2) * total(share) / total(mpf(1))


arcs = []
for radius, wire, share in [("0.1", "0.004", "0.25"), ("0.1", "0.004", "0.6"), ("0.1", "0.0005", "0.6"), ("0.2", "0.006", "0.95"), ("0.1", "0.004", "0.01")]:
    arcs.append({"radius": float(radius), "equivalentRadius": float(wire), "share": float(share), "henry": number(arc(radius, wire, share))})

with open("magnetics.json", "w") as out:
    json.dump({"how": "magnetics.py beside this file: mpmath at 50 digits or more, for the doubles that the inputs are; mu0 = 1.25663706212e-6 H/m",
               "elliptic": elliptic, "skinRatio": skin, "rings": rings, "fields": fields, "arcs": arcs}, out, indent=1)
