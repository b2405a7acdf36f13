"""Peer of benchmark V1: the same published formulas with NumPy, whole arrays. Prints {name: median ms}.

Arguments: length of the series, repeats. Formulas from the papers that the science room cites; whatever can be computed
once for the series is computed once, as a careful user of NumPy would.
"""
import json
import sys
import time

import numpy as np

COUNT, REPEATS = int(sys.argv[1]), int(sys.argv[2])
R = 8.314
T, A, RHO0, RHO_I = 253.15, 0.5, 0.36, 0.917


def logit(rho):
    return np.log(rho / (RHO_I - rho))


k0, k1 = 11 * np.exp(-10160 / (R * T)), 575 * np.exp(-21400 / (R * T))
surface, bend = logit(RHO0), logit(0.55)
h550 = (bend - surface) / (RHO_I * k0)
t550 = np.log((RHO_I - RHO0) / (RHO_I - 0.55)) / (k0 * A)


def level(h):
    return np.where(h <= h550, surface + RHO_I * k0 * h, bend + RHO_I * k1 / np.sqrt(A) * (h - h550))


def firn_density(h):
    return 1000 * RHO_I / (1 + np.exp(-level(h)))


def firn_age(h):
    rho = RHO_I / (1 + np.exp(-level(h)))
    return np.where(
        h <= h550,
        np.log((RHO_I - RHO0) / (RHO_I - rho)) / (k0 * A),
        t550 + np.log((RHO_I - 0.55) / (RHO_I - rho)) / (k1 * np.sqrt(A)),
    )


def dj_age(d, H=500.0, a=0.4, h=125.0):
    z = H - d
    w = 2 * H - h
    kink = w / (2 * a) * np.log(w / h)
    return np.where(z >= h, w / (2 * a) * np.log(w / np.maximum(2 * z - h, 1e-300)), kink + w / a * (h / z - 1))


def dj_layer(d, H=500.0, a=0.4, h=125.0):
    z = H - d
    w = 2 * H - h
    return np.where(z >= h, a * (2 * z - h) / w, a * z * z / (h * w))


Tt, pt, p0 = 273.16, 611.657, 101325.0
G0 = [-0.632020233335886e6, 0.655022213658955, -0.189369929326131e-7, 0.339746123271053e-14, -0.556464869058991e-21]
R2 = [-0.725974574329220e2 - 0.781008427112870e2j, -0.557107698030123e-4 + 0.464578634580806e-4j,
      0.234801409215913e-10 - 0.285651142904972e-10j]
t2 = 0.337315741065416 + 0.335449415919309j


def ice_density(temperature, p=p0):
    x = (p - p0) / pt
    g0p = sum(G0[k] * k * x ** (k - 1) for k in range(1, 5)) / pt
    r2p = (R2[1] + 2 * R2[2] * x) / pt
    tau = temperature / Tt
    bracket = (t2 - tau) * np.log(t2 - tau) + (t2 + tau) * np.log(t2 + tau) - 2 * t2 * np.log(t2) - tau * tau / t2
    return 1 / (g0p + Tt * np.real(r2p * bracket))


def creep(temperature, p):
    lowered = 7e-8 * p
    star = 263 + lowered
    th = temperature - 0.15 + lowered
    q = np.where(th < star, 6e4, 11.5e4)
    return 3.5e-25 * np.exp(-q / R * (1 / th - 1 / star))


h = np.linspace(0, 120, COUNT)
deep = np.linspace(0, 490, COUNT)
kelvins = np.linspace(223.5, 273, COUNT)
pascals = np.linspace(0, 5e6, COUNT)
parameters = np.linspace(1e-26, 2e-24, COUNT)
ion, tracer = np.linspace(5, 90, COUNT), np.linspace(1, 40, COUNT)

work = {
    'firnDensity': lambda: firn_density(h),
    'firnAge': lambda: firn_age(h),
    'firnWater': lambda: A * firn_age(h),
    'nyeAge': lambda: -500 / 0.4 * np.log1p(-deep / 500),
    'dansgaardJohnsenAge': lambda: dj_age(deep),
    'dansgaardJohnsenLayer': lambda: dj_layer(deep),
    'twoParameterAge': lambda: 500 / (0.4 * 0.8) * ((1 - deep / 500) ** -0.8 - 1),
    'iceDensity': lambda: ice_density(kelvins),
    'creepByEquation': lambda: creep(kelvins, pascals),
    'closureRate': lambda: parameters * (pascals / 3) ** 3,
    'firnTravelTime': lambda: 2 / 299792458 * (h + 0.845 * A * firn_age(h)),
    'nonSeaSalt': lambda: ion - 0.251576 * tracer,
    'deuteriumExcess': lambda: ion - 8 * tracer,
}


def median(function):
    for _ in range(20):
        function()
    times = []
    for _ in range(REPEATS):
        start = time.perf_counter()
        function()
        times.append(1e3 * (time.perf_counter() - start))
    return sorted(times)[REPEATS // 2]


print(json.dumps({name: median(function) for name, function in work.items()}))
