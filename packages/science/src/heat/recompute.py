"""Recomputes what the tests of this folder hold their functions against, by other ways than theirs and with 40 digits.

Needs Python 3 and mpmath 1.3 (Debian: python3-mpmath). Writes recomputed.json beside itself (biome sets its lines):

    python3 recompute.py && npx biome check --write recomputed.json

- bessel: J0 and J1 by mpmath.
- surface: erfc(a) and erfc(a) - exp(2 a b + b^2) erfc(a + b) by mpmath, no scaling.
- body: slab, cylinder and sphere in air by numerical inversion of the Laplace transform of the heat equation
  (Talbot's contour), not by the series: with q = sqrt(s), L = 1, diffusivity 1, the share left is
  1/s (1 - Bi f(q x)/(Bi f(q) + q f'(q))), f = cosh, I0, sinh(u)/u.
- layers: three layers of a cylinder with a gap and an air film, by the same inversion: A I0(q r) + B K0(q r) in each,
  joined by temperatures and flows.
"""

import json
import pathlib

from mpmath import besseli, besselj, besselk, cosh, erfc, exp, invertlaplace, lu_solve, matrix, mp, mpf, sinh, sqrt

mp.dps = 40
digits = lambda value: float(mp.nstr(value, 17))

FORMS = {
    "slab": (cosh, sinh),
    "cylinder": (lambda u: besseli(0, u), lambda u: besseli(1, u)),
    "sphere": (lambda u: sinh(u) / u, lambda u: (u * cosh(u) - sinh(u)) / u**2),
}


def body(shape, biot, fourier, place):
    f, slope = FORMS[shape]
    at = mpf(place) if place else mpf("1e-30")

    def transform(s):
        q = sqrt(s)
        return (1 - biot * f(q * at) / (biot * f(q) + q * slope(q))) / s

    return invertlaplace(transform, mpf(fourier), method="talbot", degree=40)


def layers(radii, conductivities, diffusivities, gap, film, time, place):
    """Share left at a radius; the gap lies behind the first layer."""
    r1, r2, r3 = map(mpf, radii)
    k1, k2, k3 = map(mpf, conductivities)
    gap, film = mpf(gap), mpf(film)

    def transform(s):
        q = [sqrt(s / mpf(a)) for a in diffusivities]
        i = lambda n, r: besseli(0, q[n] * r)
        k = lambda n, r: besselk(0, q[n] * r)
        di = lambda n, r: q[n] * besseli(1, q[n] * r)
        dk = lambda n, r: -q[n] * besselk(1, q[n] * r)
        # unknowns: u = 1/s - c1 I0 in the core; 1/s - (c2 I0 + c3 K0); 1/s - (c4 I0 + c5 K0)
        rows = matrix(
            [
                [k1 * di(0, r1), -k2 * di(1, r1), -k2 * dk(1, r1), 0, 0],
                [i(0, r1) + gap * k1 * di(0, r1), -i(1, r1), -k(1, r1), 0, 0],
                [0, k2 * di(1, r2), k2 * dk(1, r2), -k3 * di(2, r2), -k3 * dk(2, r2)],
                [0, i(1, r2), k(1, r2), -i(2, r2), -k(2, r2)],
                [0, 0, 0, k3 * di(2, r3) + film * i(2, r3), k3 * dk(2, r3) + film * k(2, r3)],
            ]
        )
        c = lu_solve(rows, matrix([0, 0, 0, 0, film / s]))
        r = mpf(place)
        if r <= r1:
            return 1 / s - c[0] * i(0, r)
        if r <= r2:
            return 1 / s - c[1] * i(1, r) - c[2] * k(1, r)
        return 1 / s - c[3] * i(2, r) - c[4] * k(2, r)

    return invertlaplace(transform, mpf(time), method="talbot", degree=40)


bessel = [
    [x, digits(besselj(0, mpf(str(x)))), digits(besselj(1, mpf(str(x))))]
    for x in (0.01, 0.85, 2.2, 3.9, 7.3, 13.6, 29.5, 77.7, 154.3, 333.1, 1201.9)
]

surface = []
for x, time, alpha, film, k in (
    ("0.013", "420", "1.21e-6", "7", "2.2"),
    ("0.08", "5400", "0.9e-6", "15", "1.4"),
    ("0.3", "86400", "1.3e-6", "25", "2.4"),
):
    x, time, alpha, film, k = map(mpf, (x, time, alpha, film, k))
    a, b = x / (2 * sqrt(alpha * time)), film * sqrt(alpha * time) / k
    surface.append(
        [*map(float, (x, time, alpha, film, k)), digits(erfc(a)), digits(erfc(a) - exp(2 * a * b + b**2) * erfc(a + b))]
    )

bodies = [
    [shape, biot, fourier, place, digits(body(shape, mpf(str(biot)), str(fourier), str(place)))]
    for shape in FORMS
    for biot, fourier, place in (
        (0.03, 4.1, 0.35),
        (0.4, 0.07, 0.9),
        (1.7, 0.31, 0.6),
        (6.2, 0.013, 0.95),
        (33, 0.12, 0.2),
    )
]

layered = [
    [time, place, digits(layers(("0.05", "0.09", "0.14"), ("2.3", "0.31", "0.037"), ("1.3e-6", "0.45e-6", "0.85e-6"), "0.02", "8", time, place))]
    for time, place in ((1800, 0.13), (7200, 0.07), (21600, 0.03), (43200, 0.04))
]

out = {"bessel": bessel, "surface": surface, "body": bodies, "layers": layered}
pathlib.Path(__file__).with_name("recomputed.json").write_text(json.dumps(out, indent=2) + "\n")
