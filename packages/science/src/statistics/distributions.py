"""Values of the distributions with 50 digits, for distributions.suite.ts: python3 distributions.py > distributions.reference.ts

General library: mpmath (arbitrary precision).
"""

from mpmath import betainc, erfc, exp, findroot, gammainc, inf, loggamma, mp, mpf, sqrt

mp.dps = 50


def normal(z):
    return erfc(-mpf(z) / sqrt(mpf(2))) / 2


def student(t, n):
    t, n = mpf(t), mpf(n)
    tail = betainc(n / 2, mpf(1) / 2, 0, n / (n + t * t), regularized=True) / 2
    return tail if t <= 0 else 1 - tail


def rows(name, of, points):
    print(f"export const {name}: readonly (readonly number[])[] = [")
    for p in points:
        print("  [" + ", ".join(repr(float(x)) for x in p) + ", " + repr(float(of(*p))) + "],")
    print("];")


print("/** Computed with 50 digits by distributions.py: arguments, then the value. */")
rows("normalShares", normal, [(z,) for z in (-37.25, -20.3, -8.125, -3.7, -1.959963984540054, -0.4, 0.25, 1.3, 5.5)])
rows("logGammas", loggamma, [(x,) for x in (1e-5, 0.3, 0.97, 1.0001, 1.49, 1.9999, 2.3, 3.75, 9.5, 10.5, 171.2, 1e6)])
rows(
    "gammaShares",
    lambda a, x: gammainc(mpf(a), 0, mpf(x), regularized=True),
    [(0.5, 0.1), (0.01, 1e-9), (2.5, 7.75), (3, 0.002), (50, 31), (50, 62.5), (1000, 870), (1000, 1100), (250000, 249100)],
)
rows(
    "gammaRests",
    lambda a, x: gammainc(mpf(a), mpf(x), inf, regularized=True),
    [(0.5, 30.25), (2.5, 41), (50, 143), (1000, 1310)],
)
rows(
    "betaShares",
    lambda a, b, x: betainc(mpf(a), mpf(b), 0, mpf(x), regularized=True),
    [(0.5, 0.5, 0.125), (2, 3, 0.4375), (8.5, 0.5, 0.75), (30, 70.5, 0.25), (400, 90, 0.75), (5, 1200, 0.0009765625)],
)
rows(
    "studentShares",
    student,
    [(-0.001, 3), (-1.25, 0.5), (-2.5, 1), (-2.217144, 27.112006), (-40, 4), (-7, 16), (-3.5, 1000), (-4.5, 1e6), (1.75, 9)],
)
